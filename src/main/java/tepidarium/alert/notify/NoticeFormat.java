package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tepidarium.alert.AlertKind;

/** Formats topics, times and durations for notices. */
final class NoticeFormat {
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);

  private NoticeFormat() {}

  /** The short name of a topic, such as "too cold". */
  static String state(String topic) {
    return AlertKind.ofKey(topic)
        .map(AlertKind::state)
        .or(() -> Trouble.Kind.ofKey(topic).map(Trouble.Kind::state))
        .orElse(topic);
  }

  /** The direction beyond the limit, such as "below"; empty for a topic without such a limit. */
  static String beyond(String topic) {
    return AlertKind.ofKey(topic).map(AlertKind::beyond).orElse("");
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

  /** One line for each of the first items, and the number of those that are left out. */
  static <T> List<String> listed(List<T> items, int most, Function<T, String> line) {
    List<String> lines = new ArrayList<>(items.stream().limit(most).map(line).toList());
    if (items.size() > most) {
      lines.add("and " + (items.size() - most) + " more; see the page.");
    }
    return lines;
  }

  /** Such as "3 sensors". */
  static String counted(int number, String noun) {
    return counted(number, noun, noun + 's');
  }

  static String counted(int number, String noun, String plural) {
    return number + " " + (number == 1 ? noun : plural);
  }

  /** Such as "10 too cold, 2 silent". */
  static String countsByState(Stream<String> topics) {
    Map<String, Long> counts = new LinkedHashMap<>();
    topics.forEach(topic -> counts.merge(state(topic), 1L, Long::sum));
    return counts.entrySet().stream()
        .map(entry -> entry.getValue() + " " + entry.getKey())
        .collect(Collectors.joining(", "));
  }
}
