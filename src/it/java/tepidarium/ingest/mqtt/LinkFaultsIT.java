package tepidarium.ingest.mqtt;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.UnaryOperator;
import org.apache.activemq.artemis.api.core.ActiveMQException;
import org.apache.activemq.artemis.api.core.ActiveMQSecurityException;
import org.apache.activemq.artemis.api.core.QueueConfiguration;
import org.apache.activemq.artemis.core.config.WildcardConfiguration;
import org.apache.activemq.artemis.core.config.impl.ConfigurationImpl;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.core.server.impl.ActiveMQServerImpl;
import org.apache.activemq.artemis.core.server.plugin.ActiveMQServerPlugin;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.ingest.Decoder;
import tepidarium.ingest.HeardMessages;
import tepidarium.ingest.IngestCounters;
import tepidarium.ingest.Intake;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectLog;
import tepidarium.ingest.SensorLimit;
import tepidarium.it.Ports;
import tepidarium.it.RawMqtt;
import tepidarium.series.WriteResult;

/**
 * Tests the link with an external broker that passes on every message, and with an MQTT client that
 * fails. The broker is a plain Artemis without the checks of the embedded one.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class LinkFaultsIT {
  private static final Duration SOON = Duration.ofSeconds(20);
  private static final int MAX_PAYLOAD = 10_000;
  private static final byte[] NONE = {};

  private final int port = Ports.free();
  private final List<String> stored = new CopyOnWriteArrayList<>();
  private final List<Reject> rejects = new CopyOnWriteArrayList<>();
  private final RejectLog rejectLog =
      new RejectLog() {
        @Override
        public void add(List<Reject> lines) {
          rejects.addAll(lines);
        }

        @Override
        public List<Line> newest(int most) {
          return List.of();
        }
      };
  private volatile CountDownLatch store = new CountDownLatch(0);
  private ActiveMQServer broker;
  private Intake intake;
  private MqttLink link;
  private int links;

  @BeforeAll
  void startABrokerWithoutChecks(@TempDir Path folder) throws Exception {
    // The injected faults end threads of the client.
    Awaitility.doNotCatchUncaughtExceptionsByDefault();
    ConfigurationImpl configuration = new ConfigurationImpl();
    configuration.setPersistenceEnabled(false);
    configuration.setSecurityEnabled(false);
    configuration.setJMXManagementEnabled(false);
    configuration.setBrokerInstance(folder.toFile());
    configuration.setWildCardConfiguration(
        new WildcardConfiguration().setDelimiter('/').setSingleWord('+').setAnyWords('#'));
    configuration.addAcceptorConfiguration(
        "mqtt", "tcp://127.0.0.1:" + port + "?protocols=MQTT&useEpoll=false");
    configuration.registerBrokerPlugin(
        new ActiveMQServerPlugin() {
          @Override
          public void beforeCreateQueue(QueueConfiguration queue) throws ActiveMQException {
            if (queue.getAddress().toString().startsWith("forbidden")) {
              throw new ActiveMQSecurityException("this topic is forbidden");
            }
          }
        });
    broker = new ActiveMQServerImpl(configuration);
    broker.start();
  }

  @AfterAll
  void stopTheBroker() throws Exception {
    broker.stop();
    Awaitility.reset();
  }

  private void startLink(UnaryOperator<InputStream> beforeClient, Duration stuckAfter) {
    Clock clock = Clock.systemUTC();
    stored.clear();
    rejects.clear();
    intake =
        new Intake(
            new Decoder("tepidarium", List.of(), MAX_PAYLOAD),
            new SensorLimit(1_000, 0),
            batch -> {
              awaitUninterruptibly(store);
              batch.forEach(reading -> stored.add(reading.sensor().name()));
              return new WriteResult(batch.size(), 0, List.of());
            },
            new IngestCounters(rejectLog, "tepidarium", clock),
            press -> null,
            faults -> {},
            new HeardMessages(),
            readings -> {});
    ReceiveWatchdog watchdog =
        new ReceiveWatchdog(new MqttLink.Limits(MAX_PAYLOAD, stuckAfter), () -> 0, beforeClient);
    link =
        new MqttLink(
            () -> new BrokerAddress("tcp://127.0.0.1:" + port, null, null, null),
            "tepidarium",
            List.of("tepidarium/#"),
            "link-" + ++links,
            watchdog,
            clock,
            intake);
    link.start(up -> {});
    await().atMost(SOON).until(link::isUp);
  }

  @AfterEach
  void stopTheLink() {
    link.close();
    intake.close();
  }

  private void publish(String topic, byte[] properties, String payload) throws IOException {
    try (RawMqtt client = RawMqtt.connected(port, 5, "sensor")) {
      byte[] bytes = payload.getBytes(StandardCharsets.UTF_8);
      assertEquals(
          0, client.publish(topic.getBytes(StandardCharsets.UTF_8), properties, bytes).reason());
    }
  }

  private void publish(String topic) throws IOException {
    publish(topic, NONE, "{\"temperature\":30}");
  }

  private void awaitStored(String... sensors) {
    await().atMost(SOON).untilAsserted(() -> assertEquals(List.of(sensors), stored));
  }

  private String onlyReject() {
    assertEquals(1, rejects.size(), rejects::toString);
    return rejects.get(0).topic() + ": " + rejects.get(0).reason();
  }

  @Test
  void messagesThatTheClientCannotReadAreRejectedAndTheOthersArrive() throws IOException {
    startLink(UnaryOperator.identity(), Duration.ofSeconds(30));
    for (String bad : List.of("\u0000", "\uFFFF", "\t")) {
      publish("tepidarium/bag" + bad);
    }
    publish("tepidarium/long", NONE, "x".repeat(400_000));
    publish("tepidarium/typed", new byte[] {3, 0, 1, 0}, "{\"temperature\":30}");
    publish("tepidarium/good");

    awaitStored("typed", "good");
    List<String> words = List.of("U+0000", "U+FFFF", "U+0009", "400000 bytes is over the limit");
    assertEquals(words.size(), rejects.size(), rejects::toString);
    for (int i = 0; i < words.size(); i++) {
      assertTrue(rejects.get(i).reason().contains(words.get(i)), rejects.get(i).reason());
    }
    assertTrue(link.isUp());
    assertNull(link.trouble());
  }

  /** Does something to the client's receiving thread each time that it reads the given word. */
  private static InputStream atWord(InputStream in, String word, Runnable fault) {
    return new FilterInputStream(in) {
      @Override
      public int read(byte[] into, int offset, int length) throws IOException {
        int count = super.read(into, offset, length);
        if (count > 0
            && new String(into, offset, count, StandardCharsets.ISO_8859_1).contains(word)) {
          fault.run();
        }
        return count;
      }
    };
  }

  @Test
  void aMessageThatKillsTheReceivingThreadIsSkippedTheThirdTime() throws IOException {
    AtomicInteger faults = new AtomicInteger();
    startLink(
        in ->
            atWord(
                in,
                "poison",
                () -> {
                  faults.incrementAndGet();
                  throw new StackOverflowError("injected");
                }),
        Duration.ofSeconds(30));
    publish("tepidarium/before");
    awaitStored("before");
    publish("tepidarium/poison", NONE, "{\"temperature\":31}");
    await().atMost(SOON).until(() -> faults.get() > 0);
    // The thread dies right after the fault is counted.
    await().atMost(Duration.ofSeconds(1)).until(() -> !link.isUp());
    publish("tepidarium/after");

    awaitStored("before", "after");
    await().atMost(SOON).until(link::isUp);
    assertEquals(3, faults.get());
    assertEquals(
        "tepidarium/poison: skipped, because it stopped the MQTT client 3 times; please report"
            + " this",
        onlyReject());
    assertEquals("{\"temperature\":31}", rejects.get(0).payload());
    assertEquals(3, intake.counts().received());
    assertNotNull(link.trouble());
    assertTrue(
        link.trouble().startsWith("the MQTT client stopped receiving; the message on "),
        link.trouble());
  }

  @Test
  void aMessageThatHangsTheReceivingThreadIsSkippedTheThirdTime() throws IOException {
    CountDownLatch never = new CountDownLatch(1);
    AtomicInteger faults = new AtomicInteger();
    startLink(
        in ->
            atWord(
                in,
                "poison",
                () -> {
                  faults.incrementAndGet();
                  awaitUninterruptibly(never);
                }),
        Duration.ofSeconds(1));
    publish("tepidarium/poison", NONE, "{\"temperature\":31}");
    publish("tepidarium/after");

    awaitStored("after");
    assertEquals(3, faults.get());
    assertTrue(onlyReject().startsWith("tepidarium/poison: skipped, "), onlyReject());
    assertTrue(
        link.trouble()
            .startsWith(
                "messages wait in the broker, but none has arrived for 1 s; the message on "),
        link.trouble());
    never.countDown();
  }

  private static void awaitUninterruptibly(CountDownLatch latch) {
    boolean interrupted = false;
    while (latch.getCount() > 0) {
      try {
        latch.await();
      } catch (InterruptedException e) {
        interrupted = true;
      }
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  @Test
  void aTopicThatTheBrokerForbidsStopsNoOtherReception() throws IOException {
    startLink(UnaryOperator.identity(), Duration.ofSeconds(30));
    link.follow(List.of("tepidarium/#", "forbidden/+"));
    await().atMost(SOON).until(() -> link.refusal("forbidden/+") != null);
    assertTrue(link.state().contains("forbidden/+"), link.state());
    await().atMost(SOON).until(link::isUp);
    publish("tepidarium/bag");
    awaitStored("bag");
  }

  @Test
  void aBlockedStoreIsReportedAndTheClientIsKept() throws IOException {
    startLink(UnaryOperator.identity(), Duration.ofSeconds(1));
    store = new CountDownLatch(1);
    publish("tepidarium/one");
    await().atMost(SOON).until(() -> link.whyNotStored() != null);
    assertEquals(
        "1 messages wait, because the readings store has accepted none for 1 s",
        link.whyNotStored());
    assertEquals(link.whyNotStored(), link.trouble());
    assertTrue(link.isUp());

    store.countDown();

    awaitStored("one");
    await().atMost(SOON).until(() -> link.whyNotStored() == null);
    assertNull(link.trouble());
  }
}
