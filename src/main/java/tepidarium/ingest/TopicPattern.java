package tepidarium.ingest;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * An MQTT topic filter with one level {@code {sensor}} for the sensor's name. Matches by level as
 * MQTT does: {@code +} matches one level, and a last {@code #} matches any number of levels,
 * including none. A leading wildcard does not match topics that begin with {@code $}.
 */
final class TopicPattern {
  private static final String SENSOR = "{sensor}";
  private static final String ANY_LEVEL = "+";
  private static final String ANY_LEVELS = "#";

  /** Maximum length of an MQTT topic: 65,535 bytes. This class counts characters. */
  private static final int MAX_LENGTH = 65_535;

  private final List<String> levels;
  private final int sensorLevel;
  private final boolean openEnded;

  private TopicPattern(List<String> levels, boolean openEnded) {
    this.levels = levels;
    this.sensorLevel = levels.indexOf(SENSOR);
    this.openEnded = openEnded;
  }

  /**
   * Parses a pattern.
   *
   * @throws IllegalArgumentException when it is not a filter with exactly one level {sensor}
   */
  static TopicPattern of(String text) {
    check(!text.isEmpty() && text.length() <= MAX_LENGTH, "is empty or too long");
    check(text.indexOf('\0') < 0, "holds a zero character");
    check(!text.startsWith("$share/"), "is a shared subscription, which cannot be mapped");
    List<String> levels = levels(text);
    boolean openEnded = levels.get(levels.size() - 1).equals(ANY_LEVELS);
    List<String> fixed = openEnded ? levels.subList(0, levels.size() - 1) : levels;
    fixed.forEach(TopicPattern::checkLevel);
    check(
        fixed.indexOf(SENSOR) >= 0 && fixed.indexOf(SENSOR) == fixed.lastIndexOf(SENSOR),
        "needs exactly one level {sensor} for the sensor's name");
    return new TopicPattern(List.copyOf(fixed), openEnded);
  }

  private static void checkLevel(String level) {
    check(!level.contains(ANY_LEVELS), "has # in a level other than the last one");
    check(
        level.equals(ANY_LEVEL) || !level.contains(ANY_LEVEL),
        "has + together with other characters in one level");
    check(
        level.equals(SENSOR) || !(level.contains("{") || level.contains("}")),
        "has a brace outside {sensor}, or {sensor} together with other characters in one level");
  }

  private static void check(boolean valid, String problem) {
    if (!valid) {
      throw new IllegalArgumentException(
          "its topic " + problem + "; write one such as garden/{sensor}/state");
    }
  }

  /** Splits a topic or a filter into levels, including empty ones. */
  static List<String> levels(String topic) {
    List<String> levels = new ArrayList<>();
    int start = 0;
    for (int slash = topic.indexOf('/'); slash >= 0; slash = topic.indexOf('/', start)) {
      levels.add(topic.substring(start, slash));
      start = slash + 1;
    }
    levels.add(topic.substring(start));
    return levels;
  }

  /** The sensor's name in the topic; null if the topic does not match. */
  @Nullable String sensorIn(List<String> topic) {
    boolean matches = openEnded ? topic.size() >= levels.size() : topic.size() == levels.size();
    for (int i = 0; matches && i < levels.size(); i++) {
      matches = matches(levels.get(i), topic.get(i), i);
    }
    return matches ? topic.get(sensorLevel) : null;
  }

  private boolean matches(String level, String topicLevel, int index) {
    boolean wildcard = level.equals(ANY_LEVEL) || index == sensorLevel;
    return wildcard ? index > 0 || !topicLevel.startsWith("$") : level.equals(topicLevel);
  }

  /** The filter to subscribe to. */
  String filter() {
    List<String> plain = new ArrayList<>(levels);
    plain.set(sensorLevel, ANY_LEVEL);
    if (openEnded) {
      plain.add(ANY_LEVELS);
    }
    return String.join("/", plain);
  }
}
