package tepidarium.it;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Scanner;
import java.util.concurrent.ThreadLocalRandom;

/**
 * Finds free ports on the loopback address, for tests that run at the same time. They lie below the
 * range from which the system itself assigns ports, and each is given once. Nobody else can
 * therefore take a port before the test listens on it.
 */
public final class Ports {
  private static final int FIRST = 20_000;
  private static final int USUAL_END = 32_768;
  private static final int END = endOfOurs();

  private static int next = ThreadLocalRandom.current().nextInt(FIRST, END);

  private Ports() {}

  /** A port that was free a moment ago. */
  public static synchronized int free() {
    for (int tries = FIRST; tries < END; tries++) {
      int port = next;
      next = port + 1 < END ? port + 1 : FIRST;
      if (isFree(port)) {
        return port;
      }
    }
    throw new AssertionError("no port from " + FIRST + " to " + END + " is free");
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
