package tepidarium.ingest.mqtt;

import io.netty.channel.Channel;
import io.netty.channel.ChannelHandler.Sharable;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelInboundHandlerAdapter;
import io.netty.channel.group.ChannelGroup;
import java.lang.reflect.Field;
import java.net.InetSocketAddress;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.LongSupplier;
import org.apache.activemq.artemis.core.remoting.impl.netty.NettyAcceptor;
import org.apache.activemq.artemis.spi.core.remoting.Acceptor;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Limits the connections to the ports for sensors, in all and from one address. A connection above
 * a limit takes the place of the one that has waited longest without a login. If all have logged
 * in, the new one is closed. Runs when the broker accepts a connection, because its own limit
 * counts neither silent connections nor addresses. Thread-safe.
 */
@Sharable
final class SensorConnections extends ChannelInboundHandlerAdapter {
  private static final Logger LOG = LoggerFactory.getLogger(SensorConnections.class);

  private final int most;
  private final int mostOfAddress;
  private final LongSupplier nanos;
  private final Map<String, Peer> peers = new HashMap<>();
  private final Map<Channel, Peer> open = new HashMap<>();
  private final RecentCount closed = new RecentCount();
  private String last = "";

  /** The open connections of one address. */
  private static final class Peer {
    private final String address;

    /** Connections without a login, oldest first. */
    private final Set<Channel> waiting = new LinkedHashSet<>();

    private int all;

    Peer(String address) {
      this.address = address;
    }

    int waiting() {
      return waiting.size();
    }
  }

  /**
   * Creates the limit of one broker.
   *
   * @param nanos a clock in nanoseconds, such as {@link System#nanoTime}
   */
  SensorConnections(BrokerLimits limits, LongSupplier nanos) {
    this.most = limits.connections();
    this.mostOfAddress = limits.connectionsOfAddress();
    this.nanos = nanos;
  }

  /**
   * Installs the limit in an acceptor that has started. The library keeps its listening sockets in
   * a private field and offers no other way to them.
   */
  void install(Acceptor acceptor) throws ReflectiveOperationException {
    Field sockets = NettyAcceptor.class.getDeclaredField("serverChannelGroup");
    sockets.setAccessible(true);
    for (Channel listening : (ChannelGroup) Objects.requireNonNull(sockets.get(acceptor))) {
      listening.pipeline().addFirst(this);
    }
  }

  @Override
  public void channelRead(ChannelHandlerContext context, Object message) throws Exception {
    if (message instanceof Channel connection && !mayOpen(connection)) {
      connection.unsafe().closeForcibly();
    } else {
      super.channelRead(context, message);
    }
  }

  /** Adds a connection, and closes another one if there are too many. */
  private boolean mayOpen(Channel connection) {
    Channel oldest;
    synchronized (this) {
      Peer peer = peers.computeIfAbsent(address(connection), Peer::new);
      Peer full = peer.all >= mostOfAddress ? peer : open.size() >= most ? fullest() : null;
      oldest = full == null ? null : full.waiting.stream().findFirst().orElse(null);
      if (full != null) {
        note(full);
        if (oldest == null) {
          forgetIfGone(peer);
          return false;
        }
        remove(oldest);
        peers.putIfAbsent(peer.address, peer);
      }
      open.put(connection, peer);
      peer.waiting.add(connection);
      peer.all++;
    }
    if (oldest != null) {
      var unused = oldest.close();
    }
    var unused = connection.closeFuture().addListener(ended -> remove(connection));
    return true;
  }

  private Peer fullest() {
    return peers.values().stream().max(Comparator.comparing(Peer::waiting)).orElseThrow();
  }

  private void note(Peer full) {
    boolean ofAddress = full.all >= mostOfAddress;
    last =
        ofAddress
            ? "more than %d connections to the sensors' port from %s"
                .formatted(mostOfAddress, full.address)
            : "more than %d connections to the sensors' port, most without a login from %s"
                .formatted(most, full.address);
    if (closed.add(nanos.getAsLong())) {
      LOG.warn(
          "{}; those without a login are closed first. Further ones are not logged for one minute",
          last);
    }
  }

  private synchronized void remove(Channel connection) {
    Peer peer = open.remove(connection);
    if (peer != null) {
      peer.waiting.remove(connection);
      peer.all--;
      forgetIfGone(peer);
    }
  }

  private void forgetIfGone(Peer peer) {
    if (peer.all == 0) {
      peers.remove(peer.address, peer);
    }
  }

  private static String address(Channel connection) {
    return connection.remoteAddress() instanceof InetSocketAddress remote
        ? remote.getAddress().getHostAddress()
        : "an unknown address";
  }

  /** Notes the login of a client; its connection is not closed for others any more. */
  synchronized void loggedIn(Channel connection) {
    Peer peer = open.get(connection);
    if (peer != null) {
      peer.waiting.remove(connection);
    }
  }

  /** A text with the number of connections, and where too many came from within the last hour. */
  synchronized String summary() {
    String now = open.size() + " of at most " + most + " connections to the sensors' port";
    long over = closed.sum(nanos.getAsLong());
    return over == 0 ? now : now + "; " + over + " closed within the last hour: " + last;
  }
}
