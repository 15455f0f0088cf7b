package tepidarium.germination;

/**
 * A value with its source.
 *
 * @param source a publication, "common practice, no source", "own results" or similar
 */
public record Figure(double value, String source) {
  public Figure {
    source = Require.text("source", source, 300);
  }
}
