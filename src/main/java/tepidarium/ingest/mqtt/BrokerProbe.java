package tepidarium.ingest.mqtt;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.LongSupplier;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.SSLSocketFactory;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.thread.DaemonThreads;

/**
 * Tests every 3 s whether a broker can be reached: connects to its port, with TLS if its address
 * says so, and sends nothing. A test that waits longer than 2 s for the connection or for an answer
 * has failed. The look-up of the broker's name has no limit of its own: while it hangs, the broker
 * counts as not reached from 20 s after the last success on. Thread-safe.
 */
public final class BrokerProbe implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(BrokerProbe.class);
  private static final int INTERVAL_SECONDS = 3;
  private static final int LIMIT_MS = 2_000;

  /** Longer than two slow tests with the interval between them. */
  private static final long VALID_NANOS = TimeUnit.SECONDS.toNanos(20);

  private final BooleanSupplier attempt;
  private final LongSupplier nanos;
  private final ScheduledExecutorService testing =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("broker-probe"));
  private volatile boolean reached;
  private volatile long reachedNanos;

  /**
   * Prepares the tests.
   *
   * @param attempt whether the broker can be reached now
   */
  BrokerProbe(BooleanSupplier attempt, LongSupplier nanos) {
    this.attempt = attempt;
    this.nanos = nanos;
  }

  /** Starts the tests. */
  public static BrokerProbe start(BrokerAddress broker) {
    BrokerProbe probe = new BrokerProbe(() -> reaches(broker), System::nanoTime);
    var unusedTests =
        probe.testing.scheduleWithFixedDelay(probe::test, 0, INTERVAL_SECONDS, TimeUnit.SECONDS);
    return probe;
  }

  /** Whether the last test reached the broker, at most 20 s ago; false before the first one. */
  public boolean reached() {
    return reached && nanos.getAsLong() - reachedNanos <= VALID_NANOS;
  }

  void test() {
    long began = nanos.getAsLong();
    boolean now = attempt.getAsBoolean();
    reachedNanos = began;
    reached = now;
  }

  private static boolean reaches(BrokerAddress broker) {
    URI uri = URI.create(broker.uri());
    try (Socket socket = new Socket()) {
      socket.connect(new InetSocketAddress(uri.getHost(), uri.getPort()), LIMIT_MS);
      socket.setSoTimeout(LIMIT_MS);
      if ("ssl".equals(uri.getScheme())) {
        greet(broker, socket, uri);
      }
      return true;
    } catch (IOException | IllegalArgumentException e) {
      LOG.debug("the broker {} cannot be reached", broker, e);
      return false;
    }
  }

  private static void greet(BrokerAddress broker, Socket socket, URI uri) throws IOException {
    SSLSocketFactory given = broker.tls();
    SSLSocketFactory factory =
        given == null ? (SSLSocketFactory) SSLSocketFactory.getDefault() : given;
    try (SSLSocket secure =
        (SSLSocket) factory.createSocket(socket, uri.getHost(), uri.getPort(), true)) {
      SSLParameters parameters = secure.getSSLParameters();
      parameters.setEndpointIdentificationAlgorithm("HTTPS");
      secure.setSSLParameters(parameters);
      secure.startHandshake();
    }
  }

  @Override
  public void close() {
    testing.shutdownNow();
  }
}
