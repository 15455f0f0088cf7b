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
 * Passes each message from the broker to the intake, which acknowledges it once it is durable.
 * Handles the messages for the link itself: the marker and the broker's status topics. Called on
 * the client's receiving thread; throws no exceptions.
 */
final class MessageHandler {
  private static final Logger LOG = LoggerFactory.getLogger(MessageHandler.class);
  private static final int EXCERPT_BYTES = 4 * Reject.MAX_EXCERPT_LENGTH;

  private final Intake intake;
  private final ReceiveWatchdog watchdog;
  private final DroppedMessages dropped;
  private final BrokerBacklog backlog;
  private final String markerTopic;
  private final Clock clock;

  MessageHandler(
      Intake intake,
      ReceiveWatchdog watchdog,
      DroppedMessages dropped,
      BrokerBacklog backlog,
      String markerTopic,
      Clock clock) {
    this.intake = intake;
    this.watchdog = watchdog;
    this.dropped = dropped;
    this.backlog = backlog;
    this.markerTopic = markerTopic;
    this.clock = clock;
  }

  /**
   * Handles one message.
   *
   * @param arrived what the watchdog knows of the message
   * @param acknowledge runs the given step, which counts the message, then acknowledges the message
   *     to the broker. Does neither if the link has reconnected.
   */
  void arrived(
      String topic,
      MqttMessage message,
      ReceiveWatchdog.Arrived arrived,
      Consumer<Runnable> acknowledge) {
    byte[] payload = message.getPayload();
    if (DroppedMessages.isStatusTopic(topic)) {
      dropped.read(topic, payload);
      acknowledge.accept(watchdog::acknowledgedUnstored);
    } else if (intake.ignores(topic)) {
      if (topic.equals(markerTopic)) {
        backlog.markerReturned(new String(payload, StandardCharsets.UTF_8));
      }
      acknowledge.accept(watchdog::acknowledgedUnstored);
    } else {
      passToIntake(topic, message, arrived, acknowledge);
    }
  }

  private void passToIntake(
      String topic,
      MqttMessage message,
      ReceiveWatchdog.Arrived arrived,
      Consumer<Runnable> acknowledge) {
    Instant arrivedAt = clock.instant();
    MessageDelivery delivery =
        new MessageDelivery(
            message.getQos() == 0 ? 0 : message.getId(),
            message.isRetained(),
            arrived.redelivered(),
            backlog.includes(arrivedAt));
    PublishFilter.Refusal refusal = arrived.refusal();
    try {
      if (refusal != null) {
        PublishFilter.Publish refused = refusal.message();
        refuse(refused.topic(), refusal.reason(), refused.beginning(), acknowledge);
      } else {
        byte[] payload = message.getPayload();
        passWithRetries(new Message(topic, payload, delivery, arrivedAt), payload, acknowledge);
      }
      backlog.handled(arrivedAt, clock.instant());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /**
   * Passes the message to the intake. Tries up to three times, because a failure such as lack of
   * memory may be temporary. Rejects the message after the third failure.
   */
  private void passWithRetries(Message message, byte[] payload, Consumer<Runnable> acknowledge)
      throws InterruptedException {
    for (int attempt = 1; ; attempt++) {
      try {
        intake.take(message, () -> acknowledge.accept(watchdog::stored));
        return;
      } catch (RuntimeException | Error e) {
        LOG.error("processing a message on {} failed unexpectedly", message.topic(), e);
        if (attempt == ReceiveWatchdog.MAX_FAILURES) {
          String reason = "processing failed unexpectedly, please report this: " + e;
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
    intake.takeRefused(reject, () -> acknowledge.accept(watchdog::stored));
  }
}
