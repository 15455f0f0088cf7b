package tepidarium.faults;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import tepidarium.it.Ports;

/**
 * A TCP proxy in front of a server whose line can be cut: from then on no byte passes and no
 * connection ends, as with a pulled cable.
 */
final class SilentNetwork implements AutoCloseable {
  private final ServerSocket entrance;
  private final int serverPort;
  private volatile boolean cut;

  private SilentNetwork(ServerSocket entrance, int serverPort) {
    this.entrance = entrance;
    this.serverPort = serverPort;
  }

  static SilentNetwork before(int serverPort) {
    try {
      ServerSocket entrance = new ServerSocket(Ports.free(), 50, InetAddress.getLoopbackAddress());
      SilentNetwork network = new SilentNetwork(entrance, serverPort);
      daemon(network::accept);
      return network;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Where clients connect to. */
  int port() {
    return entrance.getLocalPort();
  }

  void cut() {
    cut = true;
  }

  private static void daemon(Runnable task) {
    Thread thread = new Thread(task, "silent-network");
    thread.setDaemon(true);
    thread.start();
  }

  private void accept() {
    while (!entrance.isClosed()) {
      try {
        Socket client = entrance.accept();
        Socket server = new Socket(InetAddress.getLoopbackAddress(), serverPort);
        daemon(() -> carry(client, server));
        daemon(() -> carry(server, client));
      } catch (IOException e) {
        // The proxy was closed, or the server has gone.
      }
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
    try {
      entrance.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
