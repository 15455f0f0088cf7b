package tepidarium.web.server;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyStore;
import java.security.cert.X509Certificate;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.eclipse.jetty.util.ssl.SslContextFactory;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.thread.DaemonThreads;
import tepidarium.web.system.ServiceInfo.Part;

/**
 * TLS of the pages with a certificate and key from PEM files. Looks at the files every {@value
 * #LOOK_SECONDS} s and uses changed ones for new connections. If the new files cannot be used, it
 * keeps the old certificate, and health says why. Thread-safe.
 */
public final class PagesTls implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(PagesTls.class);
  private static final long LOOK_SECONDS = 2;

  /** A certificate is usually renewed well before its last two weeks. */
  private static final Duration RENEWAL_LATE = Duration.ofDays(14);

  private final Path certificate;
  private final Path key;
  private final Clock clock;
  private final SslContextFactory.Server factory = new SslContextFactory.Server();
  private final ScheduledExecutorService looking =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("pages-tls"));
  private volatile X509Certificate current;
  private volatile @Nullable String problem;
  private List<?> version;

  /**
   * Reads the files and starts to look at them.
   *
   * @throws IllegalArgumentException if they cannot be used; the message names the file
   */
  public PagesTls(Path certificate, Path key, Clock clock) {
    this.certificate = certificate;
    this.key = key;
    this.clock = clock;
    version = version();
    KeyStore store = PemFiles.keyStore(certificate, key);
    current = PemFiles.first(store);
    use(store, factory);
    var unused =
        looking.scheduleWithFixedDelay(this::look, LOOK_SECONDS, LOOK_SECONDS, TimeUnit.SECONDS);
  }

  /**
   * Checks whether the files can be used.
   *
   * @throws IllegalArgumentException if they cannot be used; the message names the file
   */
  public static void check(Path certificate, Path key) {
    PemFiles.keyStore(certificate, key);
  }

  private static void use(KeyStore store, SslContextFactory factory) {
    factory.setKeyStore(store);
    factory.setKeyStorePassword(new String(PemFiles.PASSWORD));
  }

  SslContextFactory.Server factory() {
    return factory;
  }

  private List<?> version() {
    try {
      return List.of(
          Files.getLastModifiedTime(certificate),
          Files.size(certificate),
          Files.getLastModifiedTime(key),
          Files.size(key));
    } catch (IOException e) {
      return List.of(e.toString());
    }
  }

  private void look() {
    try {
      List<?> now = version();
      if (now.equals(version)) {
        return;
      }
      KeyStore store = PemFiles.keyStore(certificate, key);
      factory.reload(reloaded -> use(store, reloaded));
      version = now;
      current = PemFiles.first(store);
      problem = null;
      LOG.info("uses the new certificate in {}", certificate);
    } catch (Exception e) {
      // The two files change one after the other, so this may end with the next look.
      if (problem == null) {
        LOG.warn("keeps the old certificate: {}", e.toString());
      }
      problem = "the old certificate is still used: " + e.getMessage();
    }
  }

  /** Tells until when the certificate is valid, and whether it must be renewed. */
  public Part health() {
    String why = problem;
    Instant end = current.getNotAfter().toInstant();
    String until = "the certificate is valid until " + end;
    if (why != null) {
      return Part.down(why + "; " + until);
    }
    return clock.instant().isBefore(end.minus(RENEWAL_LATE))
        ? Part.up(until)
        : Part.down(until + ". Renew it in " + certificate);
  }

  @Override
  public void close() {
    looking.shutdownNow();
  }
}
