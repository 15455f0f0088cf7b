package tepidarium.it;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.Base64;
import java.util.List;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;

/** A private key with a self-signed certificate for 127.0.0.1, made by the JDK's keytool. */
final class MailKeys {
  private static final String PASSWORD = "changeit";
  private static final String ALIAS = "mail";

  private final KeyStore store;

  private MailKeys(KeyStore store) {
    this.store = store;
  }

  static MailKeys made() {
    try {
      Path folder = Files.createTempDirectory("mail-keys");
      Path file = folder.resolve("keys.p12");
      try {
        generate(file);
        return new MailKeys(KeyStore.getInstance(file.toFile(), PASSWORD.toCharArray()));
      } finally {
        Files.deleteIfExists(file);
        Files.delete(folder);
      }
    } catch (IOException | GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void generate(Path file) {
    List<String> command =
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "keytool").toString(),
            "-genkeypair",
            "-alias",
            ALIAS,
            "-keyalg",
            "EC",
            "-keystore",
            file.toString(),
            "-storepass",
            PASSWORD,
            "-dname",
            "CN=127.0.0.1",
            "-ext",
            "san=ip:127.0.0.1",
            "-validity",
            "3650");
    Command.Ended ended = Command.run(command, new byte[0]);
    if (ended.status() != 0) {
      throw new IllegalStateException(ended.output());
    }
  }

  /** The certificate as text (RFC 7468). */
  String pem() throws GeneralSecurityException {
    String base64 =
        Base64.getMimeEncoder(64, new byte[] {'\n'})
            .encodeToString(store.getCertificate(ALIAS).getEncoded());
    return "-----BEGIN CERTIFICATE-----\n" + base64 + "\n-----END CERTIFICATE-----\n";
  }

  SSLContext context() throws GeneralSecurityException {
    KeyManagerFactory managers =
        KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    managers.init(store, PASSWORD.toCharArray());
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(managers.getKeyManagers(), null, null);
    return context;
  }
}
