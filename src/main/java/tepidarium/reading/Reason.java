package tepidarium.reading;

import java.util.Map;

/**
 * A reason as a code with its figures, from which a page makes a sentence in its language.
 *
 * @param code lower case with hyphens, such as {@code usual-days}
 * @param figures numbers and texts of the sentence by name, in the API's units
 */
public record Reason(String code, Map<String, Object> figures) {
  public Reason {
    figures = Map.copyOf(figures);
  }

  /** A reason without figures. */
  public static Reason of(String code) {
    return new Reason(code, Map.of());
  }

  /** A reason with one figure. */
  public static Reason of(String code, String name, Object figure) {
    return new Reason(code, Map.of(name, figure));
  }
}
