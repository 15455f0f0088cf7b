package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Small words that notices are made of. */
final class Words {
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);

  private Words() {}

  /** What a topic is called in a list, such as "too cold". */
  static String state(String topic) {
    return switch (topic) {
      case "cold" -> "too cold";
      case "hot" -> "too hot";
      case "light" -> "too bright";
      case "dry" -> "too dry";
      case "battery" -> "low on battery";
      case "faulty" -> "hard to believe";
      case "headingCold" -> "heading for too cold";
      case "headingHot" -> "heading for too hot";
      case "broker" -> "no broker";
      case "intake" -> "readings not taken in";
      case "disk" -> "disk filling";
      case "clock" -> "clock jumped";
      default -> topic.replace('_', ' ');
    };
  }

  /** How far outside, such as "below"; empty where the value has no limit that it is beyond. */
  static String beyond(String topic) {
    return switch (topic) {
      case "cold", "dry" -> "below";
      case "hot", "light" -> "above";
      default -> "";
    };
  }

  static String when(Instant at, ZoneId zone) {
    return WHEN.format(at.atZone(zone));
  }

  /** A length of time in at most two parts. */
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

  /** One line, whatever a grower wrote into a name: no character may begin another header. */
  static String oneLine(String text) {
    return text.replaceAll("[\\p{Cntrl}\\u2028\\u2029]+", " ").strip();
  }
}
