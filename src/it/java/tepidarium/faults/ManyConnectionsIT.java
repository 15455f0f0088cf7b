package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Opens 10,000 connections from one other address to the pages and to the port of the sensors, and
 * holds them. Meanwhile, a good sensor's readings are stored and the pages answer; afterwards the
 * service is as before. Each connection is opened once, so the number and the time are bounded.
 */
class ManyConnectionsIT {
  private static final int CONNECTIONS = Form.of(400, 10_000);
  private static final int TIMEOUT_MS = 5_000;
  private static final int HELD_SECONDS = Form.of(1, 15);

  /** Descriptors of log files, databases and the good clients, which come and go. */
  private static final int OTHER_DESCRIPTORS = 60;

  private static final Pattern HEAP = Pattern.compile("(?m)^tepidarium_heap_used_bytes (\\S+)$");
  private static final Path TABLE = Path.of("target", "faults", "connections.table");

  @TempDir private Path folder;

  /**
   * What each connection of a flood sends.
   *
   * @param bytes the bytes; empty for a silent connection
   */
  private record Flood(String name, boolean toPages, byte[] bytes) {}

  private static List<Flood> floods() {
    String only = System.getProperty("flood", "");
    byte[] connect = MqttBytes.connect(MqttBytes.V3, "");
    return Stream.of(
            new Flood("to the pages, silent", true, new byte[0]),
            new Flood(
                "to the pages, half a request", true, MqttBytes.utf8("GET / HTTP/1.1\r\nHost: a")),
            new Flood("to the sensors' port, silent", false, new byte[0]),
            new Flood("to the sensors' port, half a CONNECT", false, half(connect)),
            new Flood("to the sensors' port, connected", false, connect))
        .filter(flood -> flood.name().contains(only))
        .toList();
  }

  private static byte[] half(byte[] packet) {
    return Arrays.copyOf(packet, packet.length - 2);
  }

  @Test
  void goodClientsAreServedDuringAFloodOfConnections() throws IOException {
    Files.createDirectories(TABLE.getParent());
    Files.writeString(TABLE, "");
    try (Target target = Target.start(folder.resolve("data"), Map.of())) {
      target.secondsUntilStored();
      for (Flood flood : floods()) {
        withstand(flood, target);
      }
    }
  }

  private static void withstand(Flood flood, Target target) throws IOException {
    long descriptors = descriptors(target);
    List<Socket> sockets = new ArrayList<>();
    Witness witness = Witness.of(target);
    double stored;
    long held;
    long memory;
    double opening;
    try (witness) {
      long start = System.nanoTime();
      int refused = open(flood, target, sockets);
      opening = (System.nanoTime() - start) / 1e9;
      stored = target.secondsUntilStored();
      Form.last(HELD_SECONDS);
      held = descriptors(target) - descriptors;
      memory = Memory.residentMegabytes(target.pid());
      Files.writeString(
          TABLE,
          String.format(
              Locale.ROOT,
              "| %s | %,d | %,d | %,d | %.1f | %.1f | %d | %d |%n",
              flood.name(),
              sockets.size() + refused,
              refused,
              held,
              opening,
              stored,
              heapMegabytes(target),
              memory),
          StandardOpenOption.APPEND);
    } finally {
      for (Socket socket : sockets) {
        socket.close();
      }
    }
    assertTrue(target.isAlive());
    assertEquals(List.of(), witness.problems(), flood.name());
    assertEquals(0, witness.lost(), flood.name());
    assertTrue(stored <= Target.goalSeconds(), flood.name() + ": " + stored + " s");
    await(flood.name() + " has ended")
        .atMost(Form.SOON)
        .until(() -> descriptors(target) <= descriptors + OTHER_DESCRIPTORS);
    assertEquals("up", target.health().get("status").textValue());
    assertTrue(target.secondsUntilStored() <= Target.goalSeconds(), flood.name());
    assertEquals(0, target.missing(), flood.name());
  }

  /** Opens the connections one after the other; the number of those that were refused. */
  private static int open(Flood flood, Target target, List<Socket> sockets) {
    int port = flood.toPages() ? target.pages().getPort() : target.mqttPort();
    int refused = 0;
    for (int i = 0; i < CONNECTIONS; i++) {
      try {
        Socket socket = new Socket();
        sockets.add(socket);
        // Another address than that of the good clients.
        socket.bind(new InetSocketAddress(InetAddress.getByName("127.0.0.2"), 0));
        socket.connect(new InetSocketAddress("127.0.0.1", port), TIMEOUT_MS);
        socket.getOutputStream().write(flood.bytes());
      } catch (IOException e) {
        refused++;
        LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(1));
      }
    }
    return refused;
  }

  /** Used heap with what is not collected yet, MiB. */
  private static long heapMegabytes(Target target) {
    String metrics = target.grower().api().call("GET", "/metrics", null).text();
    Matcher bytes = HEAP.matcher(metrics);
    assertTrue(bytes.find(), metrics);
    return (long) (Double.parseDouble(bytes.group(1)) / (1 << 20));
  }

  private static long descriptors(Target target) throws IOException {
    try (Stream<Path> open = Files.list(Path.of("/proc/" + target.pid() + "/fd"))) {
      return open.count();
    }
  }
}
