package tepidarium.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.util.function.Consumer;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Intake;
import tepidarium.ingest.Message;
import tepidarium.ingest.MessageDelivery;
import tepidarium.ingest.Reject;
import tepidarium.ingest.RejectCode;

/**
 * Hands each message from the broker to the intake, which acknowledges it once it is durable.
 * Consumes the messages that are for the link itself: the marker and the broker's status topics.
 * Called on the client's receiving thread; no exception leaves it.
 */
final class MessageHandler {
  private static final Logger LOG = LoggerFactory.getLogger(MessageHandler.class);
  private static final int EXCERPT_BYTES = 4 * Reject.LONGEST_EXCERPT;

  private final Intake intake;
  private final Reception reception;
  private final BrokerReport report;
  private final WaitedMessages waited;
  private final String markerTopic;
  private final Clock clock;

  MessageHandler(
      Intake intake,
      Reception reception,
      BrokerReport report,
      WaitedMessages waited,
      String markerTopic,
      Clock clock) {
    this.intake = intake;
    this.reception = reception;
    this.report = report;
    this.waited = waited;
    this.markerTopic = markerTopic;
    this.clock = clock;
  }

  /**
   * Handles one message.
   *
   * @param acknowledge acknowledges the message to the broker, unless its connection was replaced;
   *     first runs the given step, which counts the message
   */
  void arrived(String topic, MqttMessage message, Consumer<Runnable> acknowledge) {
    byte[] payload = message.getPayload();
    Reception.Arrived arrived = reception.arrived(topic);
    if (BrokerReport.isOne(topic)) {
      report.take(topic, payload);
      acknowledge.accept(reception::passed);
    } else if (intake.ignores(topic)) {
      if (topic.equals(markerTopic)) {
        waited.returned(new String(payload, StandardCharsets.UTF_8));
      }
      acknowledge.accept(reception::passed);
    } else {
      handOver(topic, message, arrived, acknowledge);
    }
  }

  private void handOver(
      String topic,
      MqttMessage message,
      Reception.Arrived arrived,
      Consumer<Runnable> acknowledge) {
    Instant arrivedAt = clock.instant();
    MessageDelivery delivery =
        new MessageDelivery(
            message.getQos() == 0 ? 0 : message.getId(),
            message.isRetained(),
            arrived.again(),
            waited.waited(arrivedAt));
    PublishFilter.Refusal refusal = arrived.refusal();
    try {
      if (refusal != null) {
        PublishFilter.Publish refused = refusal.message();
        refuse(refused.topic(), refusal.reason(), refused.beginning(), acknowledge);
      } else {
        byte[] payload = message.getPayload();
        take(new Message(topic, payload, delivery, arrivedAt), payload, acknowledge);
      }
      waited.handled(arrivedAt, clock.instant());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /**
   * Gives the message to the intake. Retries after a failure, which may be temporary, such as no
   * memory left. Rejects the message after three failures.
   */
  private void take(Message message, byte[] payload, Consumer<Runnable> acknowledge)
      throws InterruptedException {
    for (int attempt = 1; ; attempt++) {
      try {
        intake.take(message, () -> acknowledge.accept(reception::stored));
        return;
      } catch (RuntimeException | Error e) {
        LOG.error("a message on {} met an unexpected failure", message.topic(), e);
        if (attempt == Reception.MOST_FAILURES) {
          String reason = "an unexpected failure, please report it: " + e;
          refuse(message.topic(), reason, payload, acknowledge);
          return;
        }
      }
    }
  }

  private void refuse(String topic, String reason, byte[] payload, Consumer<Runnable> acknowledge)
      throws InterruptedException {
    String beginning =
        new String(payload, 0, Math.min(payload.length, EXCERPT_BYTES), StandardCharsets.UTF_8);
    Reject reject = Reject.of(clock.instant(), topic, RejectCode.OTHER, reason, beginning);
    intake.takeRefused(reject, () -> acknowledge.accept(reception::stored));
  }
}
