package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.RunningService;

/** A browser that has the live page open and stops reading, while readings flow. */
class SlowStreamIT {
  private static final int SENSORS = Form.of(200, 2_000);
  private static final int SECONDS = Form.of(3, 60);
  private static final int BUFFER_BYTES = 4_096;

  @TempDir private Path folder;

  @Test
  void aClientThatDoesNotReadBlocksNoOther() throws IOException {
    Path data = folder.resolve("data");
    try (RunningService service = RunningService.embedded(data)) {
      Grower grower = new Grower(service.api());
      grower.awaitBroker();
      try (Socket sleeping = open(service);
          Socket other = open(service)) {
        AtomicLong events = new AtomicLong();
        Thread page = new Thread(() -> read(other, events), "page");
        page.setDaemon(true);
        page.start();
        int rounds = flow(service.mqttPort(), events);
        assertEquals('H', sleeping.getInputStream().read(), "the answer lies unread");
        double seconds = Health.secondsUntilUp(() -> grower, System.nanoTime());
        long sent = (long) rounds * SENSORS;
        await().atMost(Form.SOON).until(() -> Tally.of(grower).received() >= sent);
        Tally tally = Health.settled(() -> grower);

        Stored stored = Stored.in(data);
        long there =
            stored.seconds().values().stream()
                .mapToLong(known -> known.get(0, rounds).cardinality())
                .sum();
        new Row(
                "live stream not read for " + SECONDS + " s",
                tally,
                sent - there,
                stored.repeated() + stored.rows() - there,
                seconds)
            .check();
      }
    }
  }

  private static Socket open(RunningService service) throws IOException {
    Socket socket = new Socket();
    socket.setReceiveBufferSize(BUFFER_BYTES);
    socket.setSoTimeout(30_000);
    int port = URI.create(service.url()).getPort();
    socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
    String request =
        "GET /api/live HTTP/1.1\r\nHost: localhost\r\nAccept: text/event-stream\r\n\r\n";
    socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
    return socket;
  }

  /** Readings of all sensors, round after round, while the other page hears of them. */
  private static int flow(int port, AtomicLong events) throws IOException {
    long end = System.nanoTime() + SECONDS * 1_000_000_000L;
    int round = 0;
    try (MqttSocket socket = new MqttSocket(port, "flow", 1 << 16)) {
      socket.awaitConnected();
      while (System.nanoTime() < end) {
        String payload = "{\"temperature\":30,\"at\":" + (Load.FIRST_SECOND + round) + "}";
        for (int i = 0; i < SENSORS; i++) {
          byte[] bytes = payload.getBytes(StandardCharsets.UTF_8);
          socket.publish(i + 1, "tepidarium/flow-" + i, bytes, false);
        }
        socket.flush();
        for (int i = 0; i < SENSORS; i++) {
          assertTrue(socket.acknowledged() <= SENSORS);
        }
        round++;
        long before = events.get();
        await().atMost(Form.SOON).until(() -> events.get() > before);
      }
    }
    return round;
  }

  /** A page that reads what it is told, and counts the readings that it hears of. */
  private static void read(Socket socket, AtomicLong events) {
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8))) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        if (line.startsWith("event: sensor")) {
          events.incrementAndGet();
        }
      }
    } catch (IOException e) {
      // Closed by the test.
    }
  }
}
