package tepidarium.ingest.mqtt;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.SSLSocketFactory;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.thread.DaemonThreads;

/**
 * Tests every 3 s whether a broker can be reached: connects to its port, with TLS if its address
 * says so, and sends nothing. A test that takes longer than 2 s has failed. Thread-safe.
 */
public final class BrokerProbe implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(BrokerProbe.class);
  private static final int INTERVAL_SECONDS = 3;
  private static final int LIMIT_MS = 2_000;

  private final BrokerAddress broker;
  private final ScheduledExecutorService testing =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("broker-probe"));
  private volatile boolean reached;

  private BrokerProbe(BrokerAddress broker) {
    this.broker = broker;
  }

  /** Starts the tests. */
  public static BrokerProbe start(BrokerAddress broker) {
    BrokerProbe probe = new BrokerProbe(broker);
    var unusedTests =
        probe.testing.scheduleWithFixedDelay(probe::test, 0, INTERVAL_SECONDS, TimeUnit.SECONDS);
    return probe;
  }

  /** Whether the last test reached the broker; false before the first one. */
  public boolean reached() {
    return reached;
  }

  private void test() {
    URI uri = URI.create(broker.uri());
    try (Socket socket = new Socket()) {
      socket.connect(new InetSocketAddress(uri.getHost(), uri.getPort()), LIMIT_MS);
      socket.setSoTimeout(LIMIT_MS);
      if ("ssl".equals(uri.getScheme())) {
        greet(socket, uri);
      }
      reached = true;
    } catch (IOException | IllegalArgumentException e) {
      LOG.debug("the broker {} cannot be reached", broker, e);
      reached = false;
    }
  }

  private void greet(Socket socket, URI uri) throws IOException {
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
