package tepidarium.web.server;

import java.net.InetSocketAddress;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.eclipse.jetty.io.AbstractEndPoint;
import org.eclipse.jetty.io.Connection;
import org.eclipse.jetty.io.EofException;
import org.eclipse.jetty.io.ssl.SslConnection;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.thread.DaemonThreads;
import tepidarium.web.live.LiveStream;

/**
 * Limits the HTTP connections: {@value #MAX_CONNECTIONS} in all, {@value #MAX_PER_ADDRESS} from one
 * address. A connection above a limit is accepted, and the connection that has been idle for
 * longest is closed. A client can therefore always connect, even while another client at its
 * address uses all allowed connections. Connections that have waited for their first request or for
 * an answer for less than {@value #NEW_SECONDS} s are closed only after idle ones, and live streams
 * last.
 *
 * <p>Also closes slow connections: those without a complete request head after 60 s, and those that
 * read a response at less than about 1.6 kB/s. Thread-safe.
 */
final class Connections extends Handler.Wrapper implements Connection.Listener {
  static final int MAX_CONNECTIONS = 200;
  static final int MAX_PER_ADDRESS = 64;

  private static final Logger LOG = LoggerFactory.getLogger(Connections.class);
  private static final long LOOK_SECONDS = 5;
  private static final long HEAD_SECONDS = 60;
  // A busy machine may take many seconds for a request; the connection has to last until then.
  private static final long NEW_SECONDS = 30;
  // A response is written in pieces of 32 KiB.
  private static final long PIECE_SECONDS = 20;

  private final Map<Connection, Client> clients = new ConcurrentHashMap<>();
  private final ScheduledExecutorService looking =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("http-connections"));

  /** An open connection and its state. */
  private static final class Client {
    private final Connection connection;
    private final String address;
    private volatile boolean known;
    private volatile boolean handled;
    private volatile boolean streaming;
    private volatile long sinceNs = System.nanoTime();
    private long writingSinceNs;
    private long written = -1;

    Client(Connection connection) {
      this.connection = connection;
      this.address =
          connection.getEndPoint().getRemoteSocketAddress() instanceof InetSocketAddress remote
              ? remote.getHostString()
              : "";
    }

    String address() {
      return address;
    }

    boolean isStreaming() {
      return streaming;
    }

    long quietNs() {
      return System.nanoTime() - sinceNs;
    }

    void handling(boolean now, boolean stream) {
      known = true;
      handled = now;
      streaming = stream;
      sinceNs = System.nanoTime();
    }

    /** Whether the connection still waits for its first request, or for an answer. */
    boolean isBusy() {
      return (handled || !known) && quietNs() < TimeUnit.SECONDS.toNanos(NEW_SECONDS);
    }

    boolean isHeadLate() {
      return !handled && quietNs() > TimeUnit.SECONDS.toNanos(HEAD_SECONDS);
    }

    /** Whether the client has not read the same piece of a response for too long. */
    boolean isSlowReader() {
      boolean waits =
          connection.getEndPoint() instanceof AbstractEndPoint end
              && end.getWriteFlusher().isPending();
      long out = connection.getBytesOut();
      if (!waits || out != written) {
        written = waits ? out : -1;
        writingSinceNs = System.nanoTime();
      }
      return waits && System.nanoTime() - writingSinceNs > TimeUnit.SECONDS.toNanos(PIECE_SECONDS);
    }

    void close(String why) {
      LOG.debug("closes a connection from {}: {}", address, why);
      connection.getEndPoint().close(new EofException(why));
    }
  }

  @Override
  protected void doStart() throws Exception {
    super.doStart();
    var unused =
        looking.scheduleWithFixedDelay(
            this::closeSlow, LOOK_SECONDS, LOOK_SECONDS, TimeUnit.SECONDS);
  }

  @Override
  protected void doStop() throws Exception {
    looking.shutdownNow();
    super.doStop();
  }

  @Override
  public void onOpened(Connection connection) {
    if (connection instanceof SslConnection) {
      return; // The HTTP connection within it is opened as well.
    }
    Client opened = new Client(connection);
    clients.put(connection, opened);
    makeRoom(opened);
  }

  @Override
  public void onClosed(Connection connection) {
    clients.remove(connection);
  }

  private synchronized void makeRoom(Client opened) {
    List<Client> others = clients.values().stream().filter(c -> c != opened).toList();
    List<Client> neighbours =
        others.stream().filter(c -> c.address().equals(opened.address())).toList();
    if (neighbours.size() >= MAX_PER_ADDRESS) {
      closeOne(neighbours, "more than " + MAX_PER_ADDRESS + " from its address");
    } else if (others.size() >= MAX_CONNECTIONS) {
      List<Client> most =
          others.stream().collect(Collectors.groupingBy(Client::address)).values().stream()
              .max(Comparator.comparing(List::size))
              .orElse(others);
      closeOne(most, "more than " + MAX_CONNECTIONS + " in all");
    }
  }

  private void closeOne(List<Client> candidates, String why) {
    candidates.stream()
        .min(
            Comparator.comparing(Client::isStreaming)
                .thenComparing(Client::isBusy)
                .thenComparing(Comparator.comparing(Client::quietNs).reversed()))
        .ifPresent(
            client -> {
              clients.remove(client.connection);
              client.close(why);
            });
  }

  private void closeSlow() {
    try {
      for (Client client : clients.values()) {
        if (client.isHeadLate()) {
          client.close("no complete request head within " + HEAD_SECONDS + " s");
        } else if (client.isSlowReader()) {
          client.close("did not read the response for " + PIECE_SECONDS + " s");
        }
      }
    } catch (RuntimeException e) {
      LOG.error("cannot check for slow connections; retrying", e);
    }
  }

  @Override
  public boolean handle(Request request, Response response, Callback callback) throws Exception {
    Client client = clients.get(request.getConnectionMetaData().getConnection());
    if (client != null) {
      client.handling(true, LiveStream.PATH.equals(Request.getPathInContext(request)));
      Request.addCompletionListener(request, failure -> client.handling(false, false));
    }
    return super.handle(request, response, callback);
  }
}
