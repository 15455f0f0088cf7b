package tepidarium.ingest;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * An MQTT topic filter in which one level, written {@code {sensor}}, holds the sensor's name. Works
 * level by level as MQTT does: {@code +} stands for one level, a last {@code #} for any number of
 * them, none included, and a wildcard in front fits no topic that begins with {@code $}.
 */
final class TopicPattern {
  private static final String SENSOR = "{sensor}";
  private static final String ONE = "+";
  private static final String REST = "#";

  /** The longest topic that MQTT can carry, in bytes; characters are counted here. */
  private static final int LONGEST = 65_535;

  private final List<String> levels;
  private final int sensorLevel;
  private final boolean open;

  private TopicPattern(List<String> levels, boolean open) {
    this.levels = levels;
    this.sensorLevel = levels.indexOf(SENSOR);
    this.open = open;
  }

  /**
   * The pattern that the text describes.
   *
   * @throws IllegalArgumentException when it is not a filter with one place for the sensor's name
   */
  static TopicPattern of(String text) {
    check(!text.isEmpty() && text.length() <= LONGEST, "is empty or too long");
    check(text.indexOf('\0') < 0, "holds a zero character");
    check(!text.startsWith("$share/"), "is a shared subscription, which cannot be mapped");
    List<String> levels = levels(text);
    boolean open = levels.get(levels.size() - 1).equals(REST);
    List<String> closed = open ? levels.subList(0, levels.size() - 1) : levels;
    closed.forEach(TopicPattern::checkLevel);
    check(
        closed.indexOf(SENSOR) >= 0 && closed.indexOf(SENSOR) == closed.lastIndexOf(SENSOR),
        "needs exactly one level {sensor}, in the place of the sensor's name");
    return new TopicPattern(List.copyOf(closed), open);
  }

  private static void checkLevel(String level) {
    check(!level.contains(REST), "has # elsewhere than as its last level");
    check(level.equals(ONE) || !level.contains(ONE), "has + beside other characters in a level");
    check(
        level.equals(SENSOR) || !(level.contains("{") || level.contains("}")),
        "has a brace beside {sensor}, which must fill a level");
  }

  private static void check(boolean fine, String problem) {
    if (!fine) {
      throw new IllegalArgumentException(
          "its topic " + problem + "; write one such as garden/{sensor}/state");
    }
  }

  /** The levels of a topic or a filter, empty ones included. */
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

  /** What stands in the sensor's place, or null where the topic does not fit. */
  @Nullable String sensorIn(List<String> topic) {
    boolean fits = open ? topic.size() >= levels.size() : topic.size() == levels.size();
    for (int i = 0; fits && i < levels.size(); i++) {
      fits = fits(levels.get(i), topic.get(i), i);
    }
    return fits ? topic.get(sensorLevel) : null;
  }

  private boolean fits(String level, String topicLevel, int index) {
    boolean wildcard = level.equals(ONE) || index == sensorLevel;
    return wildcard ? index > 0 || !topicLevel.startsWith("$") : level.equals(topicLevel);
  }

  /** The filter to subscribe to. */
  String filter() {
    List<String> plain = new ArrayList<>(levels);
    plain.set(sensorLevel, ONE);
    if (open) {
      plain.add(REST);
    }
    return String.join("/", plain);
  }
}
