package tepidarium.importing;

import java.io.IOException;
import java.io.InputStream;

/** Opens the file from its start. It is opened more than once: for the guesses and for the rows. */
@FunctionalInterface
public interface Source {
  InputStream open() throws IOException;
}
