package tepidarium.ingest.mqtt;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import org.apache.activemq.artemis.core.remoting.impl.netty.NettyConnection;
import org.apache.activemq.artemis.spi.core.protocol.RemotingConnection;
import org.jspecify.annotations.Nullable;

/** Reads the network address of a client. */
final class RemoteAddress {
  private RemoteAddress() {}

  /** The address of the other end; null if it is unknown. */
  static @Nullable InetAddress of(RemotingConnection connection) {
    return connection.getTransportConnection() instanceof NettyConnection netty
            && netty.getChannel().remoteAddress() instanceof InetSocketAddress address
        ? address.getAddress()
        : null;
  }

  /** The address as text, without the port. */
  static String words(RemotingConnection connection) {
    InetAddress address = of(connection);
    return address == null ? "an unknown address" : address.getHostAddress();
  }
}
