package tepidarium.germination;

/**
 * A number with where it comes from.
 *
 * @param source a publication, "common practice, no source", "own results" and the like
 */
public record Figure(double value, String source) {
  public Figure {
    source = Require.text("source", source, 300);
  }
}
