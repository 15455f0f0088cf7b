package tepidarium.faults;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.function.Function;
import tepidarium.it.Ports;

/**
 * The entrance of a TCP proxy on a free loopback port. Each connection has threads of its own,
 * which end with it.
 */
final class TcpProxy implements AutoCloseable {
  private final ServerSocket entrance;
  private final Function<Socket, Runnable> work;

  private TcpProxy(ServerSocket entrance, Function<Socket, Runnable> work) {
    this.entrance = entrance;
    this.work = work;
  }

  /**
   * Starts a proxy.
   *
   * @param work gives what a thread of its own does with each connection of a client; asked in the
   *     order in which they come
   */
  static TcpProxy start(Function<Socket, Runnable> work) {
    try {
      ServerSocket entrance = new ServerSocket(Ports.free(), 50, InetAddress.getLoopbackAddress());
      TcpProxy proxy = new TcpProxy(entrance, work);
      daemon(proxy::accept);
      return proxy;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A connection to the server behind the proxy. */
  static Socket connect(int serverPort) throws IOException {
    return new Socket(InetAddress.getLoopbackAddress(), serverPort);
  }

  static void daemon(Runnable task) {
    Thread thread = new Thread(task, "tcp-proxy");
    thread.setDaemon(true);
    thread.start();
  }

  /** Where clients connect to. */
  int port() {
    return entrance.getLocalPort();
  }

  private void accept() {
    while (!entrance.isClosed()) {
      try {
        daemon(work.apply(entrance.accept()));
      } catch (IOException e) {
        return; // closed
      }
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
