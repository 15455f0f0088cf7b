package tepidarium.ingest;

import java.time.Duration;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Reads messages of buttons: the minutes as a plain number, or nothing for the usual time. */
final class ButtonPresses {
  private static final double USUAL_MINUTES = 10;
  private static final double MOST_MINUTES = 240;

  private ButtonPresses() {}

  /** The press that a payload means; null where it makes no sense, and the message is rejected. */
  static @Nullable ButtonPress read(String container, String payload, Outcome outcome) {
    Message message = outcome.message();
    if (message.delivery().retained()) {
      outcome.reject(
          RejectCode.RETAINED,
          "a button's message that the broker has kept says nothing about now: publish it without"
              + " the retain flag");
      return null;
    }
    if (message.delivery().waited()) {
      outcome.reject(
          RejectCode.BUTTON,
          "a button's message that waited in the broker while this service was away: when the button"
              + " was pressed is not known, so enter the opening on the container's page");
      return null;
    }
    Double minutes = minutes(payload.strip());
    if (minutes == null) {
      outcome.reject(
          RejectCode.BUTTON,
          String.format(
              Locale.ROOT,
              "%s is no opening: send minutes from 0 (closed again) to %.0f, or nothing for %.0f",
              Text.quote(payload),
              MOST_MINUTES,
              USUAL_MINUTES));
      return null;
    }
    Duration time = Duration.ofMillis(Math.round(minutes * 60_000));
    return new ButtonPress(message.topic(), container, time, message.arrivedAt());
  }

  private static @Nullable Double minutes(String text) {
    if (text.isEmpty()) {
      return USUAL_MINUTES;
    }
    try {
      double minutes = Double.parseDouble(text);
      return minutes >= 0 && minutes <= MOST_MINUTES ? minutes : null;
    } catch (NumberFormatException e) {
      return null;
    }
  }
}
