package tepidarium.tls;

import java.io.IOException;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import javax.net.ssl.KeyManager;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocketFactory;
import javax.net.ssl.TrustManager;
import javax.net.ssl.TrustManagerFactory;
import org.jspecify.annotations.Nullable;

/**
 * The files with which a client proves who it is and checks the server.
 *
 * @param ca certificates of the authorities that are trusted; null trusts those of Java
 * @param certificate the client's certificate; null for none
 * @param key its key; null for none
 */
public record ClientTls(@Nullable Path ca, @Nullable Path certificate, @Nullable Path key) {
  /**
   * Reads the files.
   *
   * @throws IllegalArgumentException if they cannot be used; the message names the file
   */
  public SSLSocketFactory socketFactory() {
    return context().getSocketFactory();
  }

  /**
   * Reads the files, for libraries that make their own sockets.
   *
   * @throws IllegalArgumentException if they cannot be used; the message names the file
   */
  public SSLContext context() {
    try {
      SSLContext context = SSLContext.getInstance("TLS");
      context.init(keys(), trusted(), null);
      return context;
    } catch (GeneralSecurityException | IOException e) {
      throw new IllegalArgumentException("the files for TLS cannot be used (" + e + ")", e);
    }
  }

  private KeyManager @Nullable [] keys() throws GeneralSecurityException {
    if (certificate == null || key == null) {
      return null;
    }
    KeyManagerFactory factory =
        KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    factory.init(PemFiles.keyStore(certificate, key), PemFiles.PASSWORD);
    return factory.getKeyManagers();
  }

  private TrustManager @Nullable [] trusted() throws GeneralSecurityException, IOException {
    if (ca == null) {
      return null;
    }
    KeyStore store = KeyStore.getInstance("PKCS12");
    store.load(null, PemFiles.PASSWORD);
    int number = 0;
    for (Certificate authority : PemFiles.chain(ca)) {
      store.setCertificateEntry("ca-" + number++, authority);
    }
    TrustManagerFactory factory =
        TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
    factory.init(store);
    return factory.getTrustManagers();
  }
}
