package tepidarium.season;

/**
 * A lesson from the season.
 *
 * @param kind subject, such as {@code cold}
 * @param words one or two sentences for the grower; temperatures are followed by °C and heat by
 *     °C·h
 * @param weight sort key, at least 0: the share of heat, time, days or seeds lost or gained
 */
public record Lesson(String kind, String words, double weight) {}
