package tepidarium.ingest;

import java.time.Duration;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Reads messages of buttons. The payload is the length of the opening in minutes as a plain number;
 * an empty payload means 10 minutes.
 */
final class ButtonPresses {
  private static final double DEFAULT_MINUTES = 10;
  private static final double MAX_MINUTES = 240;

  private ButtonPresses() {}

  /**
   * Reads a press from a payload. Rejects the message and returns null if the payload is not valid.
   */
  static @Nullable ButtonPress read(String container, String payload, ReadingCollector collector) {
    Message message = collector.message();
    if (message.delivery().retained()) {
      collector.reject(
          RejectCode.RETAINED,
          "a retained message of a button does not contain the time of the press: publish it without"
              + " the retain flag");
      return null;
    }
    if (message.delivery().waited()) {
      collector.reject(
          RejectCode.BUTTON,
          "this button message waited in the broker while the service was not connected, so the time"
              + " of the press is unknown: enter the opening on the container's page");
      return null;
    }
    Double minutes = minutes(payload.strip());
    if (minutes == null) {
      collector.reject(
          RejectCode.BUTTON,
          String.format(
              Locale.ROOT,
              "%s is not a length of an opening: send minutes from 0 (closed again) to %.0f, or an empty payload for %.0f",
              Text.quote(payload),
              MAX_MINUTES,
              DEFAULT_MINUTES));
      return null;
    }
    Duration time = Duration.ofMillis(Math.round(minutes * 60_000));
    return new ButtonPress(message.topic(), container, time, message.arrivedAt());
  }

  private static @Nullable Double minutes(String text) {
    if (text.isEmpty()) {
      return DEFAULT_MINUTES;
    }
    try {
      double minutes = Double.parseDouble(text);
      return minutes >= 0 && minutes <= MAX_MINUTES ? minutes : null;
    } catch (NumberFormatException e) {
      return null;
    }
  }
}
