package tepidarium.it;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Scanner;
import java.util.concurrent.ThreadLocalRandom;

/**
 * Finds free ports on the loopback address. They lie below the range from which the system itself
 * assigns ports, and test processes that run at the same time use disjoint ports. Nobody else can
 * therefore take a port before the test listens on it.
 */
public final class Ports {
  private static final int FIRST = 20_000;
  private static final int USUAL_END = 32_768;
  private static final int END = endOfOurs();

  /** How many test processes may run at the same time; the build starts four. */
  private static final int PROCESSES = 8;

  /** The number of this test process, set by the build. */
  private static final int PROCESS = Integer.getInteger("tepidarium.testProcess", 0) % PROCESSES;

  private static int next = randomOfThisProcess();

  private Ports() {}

  /** A port that was free a moment ago. */
  public static synchronized int free() {
    for (int tries = FIRST; tries < END; tries += PROCESSES) {
      int port = next;
      next = port + PROCESSES < END ? port + PROCESSES : FIRST + PROCESS;
      if (isFree(port)) {
        return port;
      }
    }
    throw new AssertionError("no port from " + FIRST + " to " + END + " is free");
  }

  /** Whether a server on a port of the loopback address takes connections. */
  static boolean answers(int port) {
    return answers("127.0.0.1", port);
  }

  /** Whether a server takes connections. */
  static boolean answers(String host, int port) {
    try (Socket socket = new Socket()) {
      socket.connect(new InetSocketAddress(host, port), 1_000);
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  private static int randomOfThisProcess() {
    int choices = (END - FIRST - PROCESS) / PROCESSES;
    return FIRST + PROCESS + PROCESSES * ThreadLocalRandom.current().nextInt(choices);
  }

  private static boolean isFree(int port) {
    try (ServerSocket socket = new ServerSocket(port, 1, InetAddress.getLoopbackAddress())) {
      return socket.isBound();
    } catch (IOException e) {
      return false;
    }
  }

  private static int endOfOurs() {
    try (Scanner range =
        new Scanner(Path.of("/proc/sys/net/ipv4/ip_local_port_range"), StandardCharsets.US_ASCII)) {
      int firstOfTheSystem = range.nextInt();
      return firstOfTheSystem > FIRST ? firstOfTheSystem : USUAL_END;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
