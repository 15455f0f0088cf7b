package tepidarium.ingest.mqtt;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.UnaryOperator;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import tepidarium.ingest.Decoder;
import tepidarium.ingest.HeardMessages;
import tepidarium.ingest.IngestCounters;
import tepidarium.ingest.Intake;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectLog;
import tepidarium.ingest.SensorLimit;
import tepidarium.reading.Reading;
import tepidarium.series.WriteResult;

class BrokerConnectionTest {
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-03-01T06:00:00Z"), ZoneOffset.UTC);

  private final List<Reading> stored = new CopyOnWriteArrayList<>();
  private final List<Reject> rejects = new CopyOnWriteArrayList<>();
  private final ReceiveWatchdog watchdog =
      new ReceiveWatchdog(
          new MqttLink.Limits(1_000, Duration.ofMinutes(1)), () -> 0, UnaryOperator.identity());
  private final Intake intake =
      new Intake(
          new Decoder("tepidarium", List.of(), 4_000_000),
          new SensorLimit(1_000, 0),
          this::store,
          new IngestCounters(rejectLog(), "tepidarium", CLOCK),
          press -> null,
          faults -> {},
          new HeardMessages(),
          arrived -> {});

  @AfterEach
  void stop() {
    intake.close();
  }

  private WriteResult store(List<Reading> batch) {
    stored.addAll(batch);
    return new WriteResult(batch.size(), 0);
  }

  private RejectLog rejectLog() {
    return new RejectLog() {
      @Override
      public void add(List<Reject> more) {
        rejects.addAll(more);
      }

      @Override
      public List<Line> newest(int most) {
        return List.of();
      }
    };
  }

  private BrokerConnection connection() throws MqttException {
    return connection(1);
  }

  private BrokerConnection connection(int port) throws MqttException {
    MessageHandler messages =
        new MessageHandler(
            intake, watchdog, new DroppedMessages(), new BrokerBacklog(), "marker", CLOCK);
    return new BrokerConnection(
        new BrokerAddress("tcp://127.0.0.1:" + port, null, null, null),
        "service",
        "tepidarium/status",
        watchdog,
        new LinkStatus(),
        new BrokerConnection.Callbacks(() -> true, messages, response -> {}));
  }

  private static MqttMessage reading(double celsius) {
    String payload = "{\"temperature\":" + celsius + '}';
    return new MqttMessage(payload.getBytes(StandardCharsets.UTF_8));
  }

  /** Otherwise a redelivered message counts as new, and its reading is stored twice. */
  @Test
  void aClosedConnectionLeavesItsLateMessagesToTheNextOne() throws MqttException {
    BrokerConnection closed = connection();
    closed.ignoreMessages();
    closed.messageArrived("tepidarium/bag", reading(29));
    connection().messageArrived("tepidarium/bag", reading(30));
    await().until(() -> !stored.isEmpty());
    intake.close();
    assertEquals(1, stored.size());
    assertEquals(List.of(), rejects);
  }

  /** A busy broker. The client must not give up at the first look whether it is stuck. */
  @Test
  void aBrokerMayTakeSecondsToAnswer() throws Exception {
    byte[] accepted = {0x20, 3, 0, 0, 0};
    ScheduledExecutorService broker = Executors.newSingleThreadScheduledExecutor();
    try (ServerSocket port = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      Future<Socket> answered =
          broker.submit(
              () -> {
                Socket client = port.accept();
                client.getInputStream().read();
                var unused =
                    broker.schedule(
                        () -> {
                          client.getOutputStream().write(accepted);
                          return client;
                        },
                        1_500,
                        TimeUnit.MILLISECONDS);
                return client;
              });
      BrokerConnection connection = connection(port.getLocalPort());
      assertFalse(connection.connect());
      assertTrue(connection.isConnected());
      connection.closeForcibly();
      answered.get().close();
    } finally {
      broker.shutdownNow();
    }
  }
}
