package tepidarium.ingest.mqtt;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Ports;
import tepidarium.it.RawMqtt;

/** Floods of topics, subscriptions, retained messages and waiting messages, over bare sockets. */
class BrokerLimitsIT {
  private static final Duration SOON = Duration.ofSeconds(20);
  private static final Duration LONG = Duration.ofHours(1);
  private static final int FULL = 0x97;

  private final int port = Ports.free();
  private final List<String> refused = new CopyOnWriteArrayList<>();
  private Path folder;
  private EmbeddedBroker broker;

  @BeforeEach
  void chooseAFolder(@TempDir Path temporary) {
    folder = temporary;
  }

  @AfterEach
  void stopTheBroker() {
    broker.close();
  }

  private void start(
      int topics, Duration topicIdle, int others, Duration sessionExpiry, int sessionBytes) {
    start(topics, topicIdle, others, 1_000_000, sessionExpiry, sessionBytes);
  }

  private void start(
      int topics,
      Duration topicIdle,
      int others,
      long pairs,
      Duration sessionExpiry,
      int sessionBytes) {
    BrokerAccounts accounts =
        OpenAccounts.of(BrokerClients.ANYBODY, (topic, reason) -> refused.add(reason));
    BrokerLimits limits =
        new BrokerLimits(
            8 << 20,
            100,
            100,
            topics,
            topicIdle,
            others,
            pairs,
            others,
            sessionExpiry,
            sessionBytes,
            Integer.MAX_VALUE,
            Long.MAX_VALUE,
            topic -> null);
    broker =
        EmbeddedBroker.start(new SensorPorts("127.0.0.1", port, null), folder, accounts, limits);
    broker.openSensorPort();
  }

  private boolean hasSession(String clientId) throws IOException {
    try (RawMqtt client = new RawMqtt(port, 5)) {
      RawMqtt.Packet answer = client.connect(clientId, null, null, null, -1);
      assertEquals(0, answer.reason());
      return answer.body()[0] == 1;
    }
  }

  /** A client that subscribes, asks to be remembered for ever, and goes. */
  private void leave(String clientId) throws IOException {
    try (RawMqtt client = new RawMqtt(port, 5)) {
      assertEquals(0, client.connect(clientId, null, null, null, -1).reason());
      assertEquals(1, client.subscribe("tepidarium/#").granted());
    }
  }

  @Test
  void topicsAreLimitedAndForgottenWhenTheyAreIdle() throws IOException {
    start(3, Duration.ofSeconds(1), 10, LONG, 1 << 20);
    try (RawMqtt client = RawMqtt.connected(port, 5, "sensor")) {
      for (int i = 1; i <= 3; i++) {
        assertEquals(0, client.publish("tepidarium/a" + i, "1").reason());
      }
      assertEquals(0x87, client.publish("tepidarium/a4", "1").reason());
      assertTrue(refused.get(0).contains("already has 3 topics"), refused::toString);
      await().atMost(SOON).until(() -> client.publish("tepidarium/a5", "1").reason() == 0);
    }
  }

  @Test
  void noMessageIsLostWhileIdleTopicsAreForgotten() throws IOException {
    start(100_000, Duration.ofMillis(2), 10, LONG, 1 << 20);
    try (RawMqtt subscriber = RawMqtt.connected(port, 4, "subscriber");
        RawMqtt sensor = RawMqtt.connected(port, 5, "sensor")) {
      assertEquals(1, subscriber.subscribe("tepidarium/#").granted());
      for (int i = 0; i < 1_000; i++) {
        assertEquals(0, sensor.publish("tepidarium/a" + i % 3, "n" + i).reason());
        String message = new String(subscriber.next().body(), RawMqtt.CHARSET);
        assertTrue(message.endsWith("n" + i), message);
      }
    }
  }

  @Test
  void subscriptionsAndRetainedMessagesAreLimited() throws IOException {
    start(100, LONG, 2, LONG, 1 << 20);
    try (RawMqtt client = RawMqtt.connected(port, 5, "greedy")) {
      assertEquals(1, client.subscribe("tepidarium/a").granted());
      assertEquals(1, client.subscribe("tepidarium/b").granted());
      assertEquals(FULL, client.subscribe("tepidarium/c").granted());
      // Those that it has are granted again.
      assertEquals(1, client.subscribe("tepidarium/b").granted());
    }
    try (RawMqtt client = RawMqtt.connected(port, 5, "keeper")) {
      for (String topic : List.of("tepidarium/x", "tepidarium/y", "tepidarium/x")) {
        assertEquals(0, client.retain(topic, "1").reason());
      }
      RawMqtt.Packet answer = client.retain("tepidarium/z", "1");
      assertTrue(answer.ended());
      assertEquals(FULL, answer.reason());
    }
    assertTrue(refused.get(0).contains("already keeps 2: publish without the retain flag"));
  }

  @Test
  void refusedSubscriptionsDoNotCountTowardsTheTopicLimit() throws IOException {
    start(50, LONG, 2, LONG, 1 << 20);
    try (RawMqtt client = RawMqtt.connected(port, 5, "greedy");
        RawMqtt old = RawMqtt.connected(port, 4, "greedy-too")) {
      for (int i = 0; i < 100; i++) {
        assertEquals(i < 2 ? 1 : FULL, client.subscribe("tepidarium/f" + i).granted());
      }
      for (int i = 0; i < 100; i++) {
        assertEquals(0x80, old.subscribe("tepidarium/g" + i).granted());
      }
    }
    assertEveryTopicIsTaken(50);
  }

  @Test
  void endedSubscriptionsDoNotCountTowardsTheTopicLimit() throws IOException {
    start(50, LONG, 10, LONG, 1 << 20);
    int granted = 0;
    for (int i = 0; i < 100; i++) {
      // Version 3.1.1 with a clean session: its subscription ends with the connection.
      try (RawMqtt client = RawMqtt.connected(port, 4, "passing")) {
        granted += client.subscribe("tepidarium/f" + i).granted() == 1 ? 1 : 0;
      }
    }
    assertEquals(10, granted);
    assertEveryTopicIsTaken(50);
  }

  private void assertEveryTopicIsTaken(int topics) throws IOException {
    assertNull(broker.topicTrouble());
    try (RawMqtt sensor = RawMqtt.connected(port, 5, "sensor")) {
      for (int i = 0; i < topics; i++) {
        assertEquals(0, sensor.publish("tepidarium/a" + i, "1").reason(), refused::toString);
      }
      assertNull(broker.topicTrouble());
      assertEquals(0x87, sensor.publish("tepidarium/more", "1").reason());
    }
    String trouble = String.valueOf(broker.topicTrouble());
    assertTrue(trouble.contains("\"tepidarium/more\" is a new topic"), trouble);
  }

  @Test
  void subscriptionsLeaveRoomForTopics() throws IOException {
    start(1_000, LONG, 100, 2_000, LONG, 1 << 20);
    try (RawMqtt client = RawMqtt.connected(port, 5, "dashboards")) {
      // Two leave room for 500 topics each in half of the pairs.
      assertEquals(1, client.subscribe("tepidarium/+").granted());
      assertEquals(1, client.subscribe("tepidarium/#").granted());
      assertEquals(FULL, client.subscribe("tepidarium/a/#").granted());
    }
  }

  @Test
  void topicsTimesSubscriptionsAreLimited() throws IOException {
    start(2_000, LONG, 100, 1_000, LONG, 1 << 20);
    try (RawMqtt reader = RawMqtt.connected(port, 5, "reader");
        RawMqtt sensor = RawMqtt.connected(port, 5, "sensor")) {
      assertEquals(1, reader.subscribe("tepidarium/#").granted());
      int accepted = 0;
      while (accepted < 1_500 && sensor.publish("tepidarium/a" + accepted, "1").reason() == 0) {
        accepted++;
      }
      // Each count, one a second, may miss a topic that is just being created.
      assertTrue(accepted > 900 && accepted < 1_200, "accepted topics: " + accepted);
      assertTrue(refused.get(refused.size() - 1).contains("use the memory"), refused::toString);
    }
  }

  @Test
  void theSessionOfAnAbsentClientIsForgotten() throws IOException {
    start(100, LONG, 10, LONG, 1 << 20);
    leave("absent");
    assertTrue(hasSession("absent"));
    broker.close();
    // It was kept on disk, and its client does not come back.
    start(100, LONG, 10, Duration.ofSeconds(2), 1 << 20);
    leave("another");
    await().atMost(SOON).until(() -> !hasQueue("another"));
    await().atMost(SOON).until(() -> !hasQueue("absent"));
    assertTrue(!hasSession("absent"));
  }

  private boolean hasQueue(String clientId) {
    return broker.hasQueue(clientId, "tepidarium/#");
  }

  @Test
  void theQueueOfOneClientIsLimited() throws IOException {
    start(100, LONG, 10, LONG, 1 << 20);
    leave("hoarder");
    byte[] topic = RawMqtt.utf8("tepidarium/a");
    try (RawMqtt sensor = RawMqtt.connected(port, 5, "sensor")) {
      for (int i = 0; i < 24; i++) {
        assertEquals(0, sensor.publish(topic, new byte[0], new byte[100_000]).reason());
      }
    }
    await()
        .atMost(SOON)
        .until(
            () -> broker.sessions(),
            words ->
                words.matches(
                    "deleted [12] MiB of messages that waited for the client \"hoarder\".*"));
    // Ten messages come to less than the limit of 1 MiB. More may have come after the first
    // deletion; the next one, a second later, deletes them.
    await().atMost(SOON).until(() -> broker.waiting("hoarder", List.of("tepidarium/#")) <= 10);
  }
}
