package tepidarium.alert;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Where a temperature is going, as stored in the detail of an alert that foresees.
 *
 * @param value the temperature now, °C
 * @param perHour its change, °C an hour
 * @param steady the temperature that it approaches, °C
 */
public record Trend(double value, double perHour, double steady) {
  private static final String WORDS =
      "now %.1f °C and changing by %+.1f °C an hour, towards about %.1f °C";
  private static final String NUMBER = "([-+]?[0-9]+\\.[0-9])";
  private static final Pattern WRITTEN =
      Pattern.compile(WORDS.replaceAll("%\\+?\\.1f", Matcher.quoteReplacement(NUMBER)));

  public static Trend of(Forecast forecast) {
    return new Trend(forecast.valueC(), forecast.perHourC(), forecast.steadyC());
  }

  /** The words for the detail, with one decimal. */
  public String words() {
    return String.format(Locale.ROOT, WORDS, value, perHour, steady);
  }

  /** Reads the trend from the beginning of a detail; null if there is none. */
  public static @Nullable Trend read(@Nullable String detail) {
    if (detail == null) {
      return null;
    }
    Matcher written = WRITTEN.matcher(detail);
    return written.lookingAt()
        ? new Trend(number(written, 1), number(written, 2), number(written, 3))
        : null;
  }

  private static double number(Matcher written, int group) {
    return Double.parseDouble(written.group(group));
  }
}
