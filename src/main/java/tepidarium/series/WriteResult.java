package tepidarium.series;

/**
 * What became of a batch that is now durable.
 *
 * @param stored readings that added something
 * @param repeated readings whose every quantity was there already
 */
public record WriteResult(int stored, int repeated) {}
