package tepidarium.season;

/**
 * Something to learn from the season, in a sentence or two.
 *
 * @param kind what it is about
 * @param words every temperature in them is followed by °C, every heat by °C·h
 * @param weight by which lessons are put in order, 0 and up: the share of the heat, the hours, the
 *     days or the seeds that were lost or gained
 */
public record Lesson(String kind, String words, double weight) {}
