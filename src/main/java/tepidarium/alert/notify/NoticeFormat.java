package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Formats topics, times and durations for notices. */
final class NoticeFormat {
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);

  private NoticeFormat() {}

  /** The short name of a topic, such as "too cold". */
  static String state(String topic) {
    return switch (topic) {
      case "cold" -> "too cold";
      case "hot" -> "too hot";
      case "light" -> "too bright";
      case "dry" -> "too dry";
      case "battery" -> "low on battery";
      case "faulty" -> "not measured reliably";
      case "headingCold" -> "heading for too cold";
      case "headingHot" -> "heading for too hot";
      case "staleAir" -> "short of air";
      case "dryMedium" -> "dry in its medium";
      case "broker" -> "no broker";
      case "intake" -> "readings not stored";
      case "disk" -> "disk filling";
      case "clock" -> "clock jumped";
      default -> topic.replace('_', ' ');
    };
  }

  /** The direction beyond the limit, such as "below"; empty for a topic without such a limit. */
  static String beyond(String topic) {
    return switch (topic) {
      case "cold", "dry", "dryMedium" -> "below";
      case "hot", "light", "staleAir" -> "above";
      default -> "";
    };
  }

  static String when(Instant at, ZoneId zone) {
    return WHEN.format(at.atZone(zone));
  }

  /** A duration in at most two units. */
  static String length(Duration time) {
    long minutes = Math.max(0, time.toMinutes());
    if (minutes < 60) {
      return minutes + " min";
    }
    if (minutes < 48 * 60) {
      return minutes / 60 + " h " + minutes % 60 + " min";
    }
    return minutes / 1_440 + " days " + minutes % 1_440 / 60 + " h";
  }

  /**
   * Removes line breaks and control characters, so that a name cannot start another e-mail header.
   */
  static String oneLine(String text) {
    return text.replaceAll("[\\p{Cntrl}\\u2028\\u2029]+", " ").strip();
  }
}
