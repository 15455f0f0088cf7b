package tepidarium.faults;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;

/**
 * A TCP proxy in front of a server whose line can be cut: from then on no byte passes and no
 * connection ends, as with a pulled cable.
 */
final class SilentNetwork implements AutoCloseable {
  private final TcpProxy proxy;
  private final int serverPort;
  private volatile boolean cut;

  private SilentNetwork(int serverPort) {
    this.serverPort = serverPort;
    proxy = TcpProxy.start(client -> () -> carry(client));
  }

  static SilentNetwork before(int serverPort) {
    return new SilentNetwork(serverPort);
  }

  /** Where clients connect to. */
  int port() {
    return proxy.port();
  }

  void cut() {
    cut = true;
  }

  private void carry(Socket client) {
    try (client;
        Socket server = TcpProxy.connect(serverPort)) {
      TcpProxy.daemon(() -> carry(server, client));
      carry(client, server);
    } catch (IOException e) {
      // One of the two has gone, as in any network.
    }
  }

  private void carry(Socket from, Socket to) {
    try (from;
        to) {
      InputStream in = from.getInputStream();
      OutputStream out = to.getOutputStream();
      byte[] bytes = new byte[65_536];
      for (int length = in.read(bytes); length >= 0; length = in.read(bytes)) {
        if (cut) {
          in.transferTo(OutputStream.nullOutputStream());
          return;
        }
        out.write(bytes, 0, length);
      }
    } catch (IOException e) {
      // One of the two has gone, as in any network.
    }
  }

  @Override
  public void close() {
    proxy.close();
  }
}
