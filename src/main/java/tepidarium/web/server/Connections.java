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
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.web.live.LiveStream;

/**
 * Limits the HTTP connections: {@value #MOST} in all, {@value #MOST_PER_ADDRESS} from one address.
 * A connection over a limit is accepted, and the one that has been without a completed request for
 * longest is closed in its place. A client therefore always gets in, also while another one at its
 * own address holds as many connections as it may. Connections of the last {@value #NEW_SECONDS} s
 * whose first request waits are closed after others, and live streams last.
 *
 * <p>Also closes connections that hold one up: those that have not sent a whole request head in 60
 * s, and those that take less than about 1.6 kB/s of an answer. Thread-safe.
 */
final class Connections extends Handler.Wrapper implements Connection.Listener {
  static final int MOST = 200;
  static final int MOST_PER_ADDRESS = 64;

  private static final Logger LOG = LoggerFactory.getLogger(Connections.class);
  private static final long LOOK_SECONDS = 5;
  private static final long HEAD_SECONDS = 60;
  private static final long NEW_SECONDS = 5;
  // An answer is written in pieces of 32 KiB.
  private static final long PIECE_SECONDS = 20;

  private final Map<Connection, Client> clients = new ConcurrentHashMap<>();
  private final ScheduledExecutorService looking =
      Executors.newSingleThreadScheduledExecutor(
          task -> {
            Thread thread = new Thread(task, "http-connections");
            thread.setDaemon(true);
            return thread;
          });

  /** An open connection and what it is doing. */
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

    /** Whether its first request may still be on its way to be handled. */
    boolean isNew() {
      return !known && quietNs() < TimeUnit.SECONDS.toNanos(NEW_SECONDS);
    }

    boolean isHeadLate() {
      return !handled && quietNs() > TimeUnit.SECONDS.toNanos(HEAD_SECONDS);
    }

    /** Whether the same piece of an answer has waited for this client for too long. */
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
    if (neighbours.size() >= MOST_PER_ADDRESS) {
      closeOne(neighbours, "more than " + MOST_PER_ADDRESS + " from its address");
    } else if (others.size() >= MOST) {
      List<Client> most =
          others.stream().collect(Collectors.groupingBy(Client::address)).values().stream()
              .max(Comparator.comparing(List::size))
              .orElse(others);
      closeOne(most, "more than " + MOST + " in all");
    }
  }

  private void closeOne(List<Client> candidates, String why) {
    candidates.stream()
        .min(
            Comparator.comparing(Client::isStreaming)
                .thenComparing(Client::isNew)
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
          client.close("no whole request head in " + HEAD_SECONDS + " s");
        } else if (client.isSlowReader()) {
          client.close("took no piece of an answer in " + PIECE_SECONDS + " s");
        }
      }
    } catch (RuntimeException e) {
      LOG.error("looking for slow connections failed; trying again", e);
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
