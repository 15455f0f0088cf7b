package tepidarium.it;

import java.nio.file.Path;
import java.util.List;

/** Certificates for tests, made with openssl. */
public final class Certificates {
  /** Subject alternative names of this machine. */
  public static final String HERE = "DNS:localhost,IP:127.0.0.1";

  private Certificates() {}

  /** Writes {@code chain.pem} and {@code key.pem}, for localhost and 127.0.0.1. */
  public static void write(Path folder, String commonName) {
    write(folder, commonName, HERE);
  }

  /** The same for other hosts, as subject alternative names of openssl. */
  public static void write(Path folder, String commonName, String hosts) {
    List<String> arguments =
        List.of(
            "req",
            "-x509",
            "-newkey",
            "ec",
            "-pkeyopt",
            "ec_paramgen_curve:P-256",
            "-nodes",
            "-days",
            "30",
            "-subj",
            "/CN=" + commonName,
            "-addext",
            "subjectAltName=" + hosts,
            "-keyout",
            folder.resolve("key.pem").toString(),
            "-out",
            folder.resolve("chain.pem").toString());
    openssl(arguments);
  }

  /** Writes {@code keys.p12} from {@code chain.pem} and {@code key.pem}. */
  static void writeStore(Path folder, String password) {
    openssl(
        List.of(
            "pkcs12",
            "-export",
            "-in",
            folder.resolve("chain.pem").toString(),
            "-inkey",
            folder.resolve("key.pem").toString(),
            "-out",
            folder.resolve("keys.p12").toString(),
            "-passout",
            "pass:" + password));
  }

  private static void openssl(List<String> arguments) {
    Command.Ended ended =
        Command.run(Command.of("/usr/bin/openssl", "openssl", arguments), new byte[0]);
    if (ended.status() != 0) {
      throw new AssertionError("openssl failed: " + ended.output());
    }
  }
}
