package tepidarium.germination;

import java.util.List;
import java.util.Locale;
import tepidarium.stats.NoFit;

/**
 * Why seed groups have no forecast by heat.
 *
 * @param groups the groups without one for this reason; empty if it holds for all of the sowing
 */
public record NoForecast(Why why, List<String> groups) {
  /** The reason. */
  public enum Why {
    NO_SEEDS("no sound seeds remain"),
    UNMEASURED(NoFit.UNMEASURED.words()),
    NO_HEAT(NoFit.NO_HEAT.words()),
    TOO_FEW(
        "too few seeds have germinated, or at too few checks, to estimate how "
            + "much heat the others need"),
    UNMEASURED_DAY("readings cover less than half of the last day in the container of these seeds"),
    HARDLY_WARMER("the container is hardly ever warmer than the base temperature"),
    UNLIKELY("less than a tenth of the remaining seeds will probably germinate");

    private final String words;

    Why(String words) {
      this.words = words;
    }

    /** The code in the API, such as {@code too-few}. */
    public String key() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  public NoForecast {
    groups = List.copyOf(groups);
  }

  /** The reason in English, without a full stop, after the groups that it holds for. */
  String words() {
    return groups.isEmpty() ? why.words : String.join(", ", groups) + ": " + why.words;
  }
}
