package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** A great many messages that nobody can read, with good ones among them. */
class FloodIT {
  private static final int GOOD = Form.of(500, 100_000);
  private static final int BAD_FOR_EACH_GOOD = 10;

  /** A backlog of two bad entries makes two lines. */
  private static final int LINES_FOR_EACH_GOOD = BAD_FOR_EACH_GOOD + 1;

  private static final int WINDOW = 500;

  private static final List<byte[]> BAD =
      List.of(
          bytes("{\"temperature\":"),
          bytes("{\"temperature\":\"warm\"}"),
          bytes("{\"temperature\":4000}"),
          bytes("{\"humidity\":-3}"),
          bytes("{\"weight\":3}"),
          bytes("[]"),
          bytes("warm"),
          bytes("{\"temperature\":30,\"age\":-1}"),
          bytes("[{\"temperature\":30},{\"temperature\":31}]"),
          new byte[] {'{', (byte) 0xFF, (byte) 0xFE});

  @TempDir private Path folder;

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void goodMessagesAreStoredAndBadOnesHaveTheirReason() throws IOException {
    Path data = folder.resolve("data");
    int port = Ports.free();
    try (ServiceProcess service = ServiceProcess.start(data, port, "embedded")) {
      send(port);
      long from = System.nanoTime();
      Grower grower = service.grower();
      double seconds = Health.secondsUntilUp(() -> grower, from);
      await().atMost(Form.SOON).until(() -> Stored.in(data).rows() == GOOD);
      long all = GOOD + (long) GOOD * LINES_FOR_EACH_GOOD;
      await().atMost(Form.SOON).until(() -> Tally.of(grower).received() == all);
      Tally tally = Health.settled(() -> grower);

      Stored stored = Stored.in(data);
      BitSet there = stored.seconds().get("good");
      assertEquals(GOOD, tally.stored());
      assertEveryLineHasItsReason(grower, tally.rejected());
      new Row(
              String.format(
                  Locale.ROOT,
                  "%,d malformed messages among %,d good ones, %d MB of memory",
                  GOOD * BAD_FOR_EACH_GOOD,
                  GOOD,
                  Memory.peakMegabytes(service.pid())),
              tally,
              GOOD - there.get(0, GOOD).cardinality(),
              stored.repeated() + stored.rows() - GOOD,
              seconds)
          .check();
    }
  }

  private static void send(int port) throws IOException {
    try (MqttSocket socket = new MqttSocket(port, "flood", 1 << 16)) {
      socket.awaitConnected();
      int id = 0;
      for (int i = 0; i < GOOD; i++) {
        String good = "{\"temperature\":30,\"at\":" + (Load.FIRST_SECOND + i) + "}";
        id = publish(socket, id, "tepidarium/good", bytes(good));
        for (int bad = 0; bad < BAD_FOR_EACH_GOOD; bad++) {
          id = publish(socket, id, "tepidarium/bad-" + bad, BAD.get(bad));
        }
      }
      awaitAcknowledged(socket, id);
    }
  }

  private static int publish(MqttSocket socket, int id, String topic, byte[] payload)
      throws IOException {
    socket.publish(id + 1, topic, payload, false);
    if (id + 1 == WINDOW) {
      awaitAcknowledged(socket, WINDOW);
      return 0;
    }
    return id + 1;
  }

  private static void awaitAcknowledged(MqttSocket socket, int messages) throws IOException {
    socket.flush();
    for (int i = 0; i < messages; i++) {
      int id = socket.acknowledged();
      assertTrue(id >= 1 && id <= messages, "an id that was sent");
    }
  }

  /** The log numbers its lines, and keeps the newest thousand. */
  private static void assertEveryLineHasItsReason(Grower grower, long rejected) {
    JsonNode log = grower.api().get("/api/rejects?limit=1000");
    Set<String> topics = new HashSet<>();
    for (JsonNode line : log.get("rejects")) {
      assertFalse(line.get("reason").textValue().isBlank());
      topics.add(line.get("topic").textValue());
    }
    assertAll(
        () -> assertEquals(rejected, log.get("total").longValue()),
        () -> assertEquals(BAD_FOR_EACH_GOOD, topics.size(), topics::toString));
  }
}
