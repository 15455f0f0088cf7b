package tepidarium.tls;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateParsingException;
import java.security.cert.X509Certificate;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.Collection;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.KeyManager;
import javax.net.ssl.SSLContext;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.thread.DaemonThreads;

/**
 * A server's certificate and key from PEM files. Looks at the files every {@value #LOOK_SECONDS} s
 * and uses changed ones for new connections. If the new files cannot be used, it keeps the old
 * certificate, and health says why. Thread-safe.
 */
public final class WatchedCertificate implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(WatchedCertificate.class);
  private static final long LOOK_SECONDS = 2;

  /** A certificate is usually renewed well before its last two weeks. */
  private static final Duration RENEWAL_LATE = Duration.ofDays(14);

  private static final int LINE_CHARACTERS = 64;
  private static final int DNS_NAME = 2;
  private static final int IP_ADDRESS = 7;

  /** Uses a changed certificate. */
  public interface Listener {
    void changed(KeyStore store) throws Exception;
  }

  /**
   * The state of the certificate.
   *
   * @param up whether the newest files are used and not about to end
   */
  public record Health(boolean up, String words) {}

  private final Path certificate;
  private final Path key;
  private final Clock clock;
  private final CurrentKey keyManager = new CurrentKey();
  private final List<Listener> listeners = new CopyOnWriteArrayList<>();
  private final ScheduledExecutorService looking =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("certificate"));
  private volatile KeyStore store;
  private volatile @Nullable String problem;
  private List<?> version;

  /**
   * Reads the files and starts to look at them.
   *
   * @throws IllegalArgumentException if they cannot be used; the message names the file
   */
  public WatchedCertificate(Path certificate, Path key, Clock clock) {
    this.certificate = certificate;
    this.key = key;
    this.clock = clock;
    version = version();
    store = PemFiles.keyStore(certificate, key);
    keyManager.use(store);
    var unused =
        looking.scheduleWithFixedDelay(this::look, LOOK_SECONDS, LOOK_SECONDS, TimeUnit.SECONDS);
  }

  /** The certificate that is used now. */
  public KeyStore store() {
    return store;
  }

  /** Adds what uses a changed certificate. */
  public void listen(Listener listener) {
    listeners.add(listener);
  }

  /** A context for a server; new connections get the newest certificate. */
  public SSLContext context() {
    try {
      SSLContext context = SSLContext.getInstance("TLS");
      context.init(new KeyManager[] {keyManager}, null, null);
      return context;
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("cannot use TLS", e);
    }
  }

  /** Names and addresses of the certificate, without those that have wildcards. */
  public List<String> hosts() {
    try {
      Collection<List<?>> names = PemFiles.first(store).getSubjectAlternativeNames();
      return names == null
          ? List.of()
          : names.stream()
              .filter(name -> name.get(0).equals(DNS_NAME) || name.get(0).equals(IP_ADDRESS))
              .map(name -> String.valueOf(name.get(1)))
              .filter(name -> !name.startsWith("*"))
              .toList();
    } catch (CertificateParsingException e) {
      return List.of();
    }
  }

  /** The last certificate of the file, which clients can check the server by, in PEM. */
  public String authority() {
    try {
      Certificate[] chain = store.getCertificateChain(PemFiles.ALIAS);
      byte[] der = chain[chain.length - 1].getEncoded();
      return "-----BEGIN CERTIFICATE-----\n"
          + Base64.getMimeEncoder(LINE_CHARACTERS, new byte[] {'\n'}).encodeToString(der)
          + "\n-----END CERTIFICATE-----\n";
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("the certificate cannot be written", e);
    }
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
      KeyStore fresh = PemFiles.keyStore(certificate, key);
      keyManager.use(fresh);
      for (Listener listener : listeners) {
        listener.changed(fresh);
      }
      version = now;
      store = fresh;
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
  public Health health() {
    String why = problem;
    X509Certificate current = PemFiles.first(store);
    Instant end = current.getNotAfter().toInstant();
    String until = "the certificate is valid until " + end;
    if (why != null) {
      return new Health(false, why + "; " + until);
    }
    return clock.instant().isBefore(end.minus(RENEWAL_LATE))
        ? new Health(true, until)
        : new Health(false, until + ". Renew it in " + certificate);
  }

  @Override
  public void close() {
    looking.shutdownNow();
  }
}
