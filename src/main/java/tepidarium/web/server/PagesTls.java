package tepidarium.web.server;

import java.security.KeyStore;
import org.eclipse.jetty.util.ssl.SslContextFactory;
import tepidarium.tls.PemFiles;
import tepidarium.tls.WatchedCertificate;

/** TLS of the pages. New connections get the newest certificate. */
public final class PagesTls {
  private final SslContextFactory.Server factory = new SslContextFactory.Server();

  public PagesTls(WatchedCertificate certificate) {
    use(certificate.store(), factory);
    certificate.listen(store -> factory.reload(reloaded -> use(store, reloaded)));
  }

  private static void use(KeyStore store, SslContextFactory factory) {
    factory.setKeyStore(store);
    factory.setKeyStorePassword(new String(PemFiles.PASSWORD));
  }

  SslContextFactory.Server factory() {
    return factory;
  }
}
