package tepidarium.importing;

import java.nio.charset.Charset;

/** The encoding of a file and the options of its import. */
record FileText(Charset charset, ImportOptions options) {}
