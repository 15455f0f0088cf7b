package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import tepidarium.alert.AlertKind;

/**
 * Formats topics, times and durations for notices.
 *
 * @param zone time zone for displayed times
 */
record NoticeFormat(NoticeWords words, ZoneId zone) {

  /** The short name of a topic, such as "too cold". */
  String state(String topic) {
    return words.say("state." + topic);
  }

  /** The direction beyond the limit, such as "below"; empty for a topic without such a limit. */
  String beyond(String topic) {
    return AlertKind.ofKey(topic)
        .map(AlertKind::beyond)
        .filter(side -> !side.isEmpty())
        .map(side -> words.say("beyond." + side))
        .orElse("");
  }

  /** What is wrong with the service, in one sentence. */
  String sentence(Trouble trouble) {
    return words.say("trouble." + trouble.kind().key(), trouble.detail());
  }

  String when(Instant at) {
    return DateTimeFormatter.ofPattern(words.say("when"), words.locale()).format(at.atZone(zone));
  }

  /** A duration in at most two units. */
  String length(Duration time) {
    long minutes = Math.max(0, time.toMinutes());
    if (minutes < 60) {
      return words.say("length.minutes", minutes);
    }
    return minutes < 48 * 60
        ? words.say("length.hours", minutes / 60, minutes % 60)
        : words.say("length.days", minutes / 1_440, minutes % 1_440 / 60);
  }

  /**
   * Removes line breaks and control characters, so that a name cannot start another e-mail header.
   */
  static String oneLine(String text) {
    return text.replaceAll("[\\p{Cntrl}\\u2028\\u2029]+", " ").strip();
  }

  /** One line for each of the first items, and the number of those that are left out. */
  <T> List<String> listed(List<T> items, int most, Function<T, String> line) {
    List<String> lines = new ArrayList<>(items.stream().limit(most).map(line).toList());
    if (items.size() > most) {
      lines.add(words.say("more", items.size() - most));
    }
    return lines;
  }

  /** Such as "10 too cold, 2 silent". */
  String countsByState(Stream<String> topics) {
    Map<String, Long> counts = new LinkedHashMap<>();
    topics.forEach(topic -> counts.merge(state(topic), 1L, Long::sum));
    return counts.entrySet().stream()
        .map(entry -> entry.getValue() + " " + entry.getKey())
        .collect(Collectors.joining(", "));
  }
}
