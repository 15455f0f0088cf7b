package tepidarium.reading;

import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Names the figures of a code, such as those of an {@link InputRule}. */
public final class NamedFigures {
  private NamedFigures() {}

  /**
   * Figures by their names, without those that are null.
   *
   * @param names the names of all figures
   * @param values their values, in the same order; null for one that is not known
   * @throws IllegalArgumentException for another number of values
   */
  public static Map<String, Object> of(List<String> names, @Nullable Object... values) {
    if (values.length != names.size()) {
      throw new IllegalArgumentException(
          "the figures are " + names + ", not " + Arrays.toString(values));
    }
    Map<String, Object> named = new LinkedHashMap<>();
    for (int i = 0; i < values.length; i++) {
      Object value = values[i];
      if (value != null) {
        named.put(names.get(i), value);
      }
    }
    return Collections.unmodifiableMap(named);
  }
}
