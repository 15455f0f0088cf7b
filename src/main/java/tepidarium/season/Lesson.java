package tepidarium.season;

import java.util.Map;

/**
 * A lesson from the season.
 *
 * @param kind subject, such as {@code cold}
 * @param words one or two sentences for the grower; temperatures are followed by °C and heat by
 *     °C·h
 * @param figures the names and numbers of the sentences, in the API's units, so that a page can say
 *     the same in another language
 * @param weight sort key, at least 0: the share of heat, time, days or seeds lost or gained
 */
public record Lesson(String kind, String words, Map<String, Object> figures, double weight) {
  public Lesson {
    figures = Map.copyOf(figures);
  }
}
