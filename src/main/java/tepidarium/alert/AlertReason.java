package tepidarium.alert;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.NamedFigures;
import tepidarium.reading.Quantity;

/**
 * Why an alert changed, as the service found out. The code and the figures let a page say it in
 * another language.
 *
 * @param figures numbers and texts by their names, without those that are not known; any other
 *     value becomes a text
 */
public record AlertReason(Code code, Map<String, Object> figures) {
  /** The kinds of reasons, with the names of their figures. */
  public enum Code {
    /** A temperature of {@code value} °C changes by {@code perHour} °C/h towards {@code steady}. */
    TREND("value", "perHour", "steady"),
    /** A sensor sent a {@code value} outside what it can measure. */
    NOT_MEASURABLE("sensor", "quantity", "value"),
    /** A sensor sent the value with which it starts. */
    POWER_ON("sensor"),
    /** A sensor sent a {@code value} that is impossible in a germination container. */
    IMPOSSIBLE("sensor", "quantity", "value"),
    /** A sensor sent the same {@code value} for {@code hours} while others changed. */
    STUCK("sensor", "quantity", "value", "hours"),
    /** The values of a sensor jump up and down by {@code step} or more. */
    JUMPING("sensor", "quantity", "step"),
    /** Two sensors in one container differ by more than their errors. */
    DISAGREEING("sensor", "quantity", "difference", "other"),
    /** The forecast came true: an alert of {@code kind} was raised. */
    CAME_TRUE("kind"),
    /** No sensor is in the container any more. */
    NO_SENSOR,
    /** Late readings show an earlier start. */
    BEGAN_EARLIER("since"),
    /** The excursion before; {@code worst}, with its {@code unit}, only of a measured quantity. */
    BEFORE("since", "until", "worst", "unit");

    @SuppressWarnings("ImmutableEnumChecker") // A list of List.of cannot be changed.
    private final List<String> figures;

    Code(String... figures) {
      this.figures = List.of(figures);
    }

    /** The code in the API, such as {@code came-true}. */
    public String key() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The names of the figures. */
    public List<String> figures() {
      return figures;
    }

    /**
     * A reason with this code.
     *
     * @param values of the figures, in their order; null for one that is not known
     */
    public AlertReason with(@Nullable Object... values) {
      return new AlertReason(this, NamedFigures.of(figures, values));
    }
  }

  public AlertReason {
    Map<String, Object> stored = new LinkedHashMap<>(figures);
    stored.replaceAll((name, value) -> value instanceof Double ? value : value.toString());
    figures = Collections.unmodifiableMap(stored);
  }

  /** The reasons in English; null if there is none. */
  static @Nullable String words(List<AlertReason> reasons) {
    return reasons.isEmpty()
        ? null
        : reasons.stream().map(AlertReason::words).collect(Collectors.joining("; "));
  }

  /** The reason in English, without a full stop. */
  String words() {
    return switch (code) {
      case TREND ->
          String.format(
              Locale.ROOT,
              "now %.1f °C and changing by %+.1f °C an hour, towards about %.1f °C",
              number("value"),
              number("perHour"),
              number("steady"));
      case NOT_MEASURABLE ->
          text("sensor")
              + ": "
              + measured("value")
              + " is outside what a sensor can measure: broken wire or sensor";
      case POWER_ON ->
          text("sensor")
              + ": exactly 85 °C, which a DS18B20 reports after power-up without a measurement:"
              + " check its supply and cable";
      case IMPOSSIBLE ->
          text("sensor")
              + ": "
              + measured("value")
              + " is impossible in a germination container: check the sensor";
      case STUCK ->
          text("sensor")
              + " reports "
              + measured("value")
              + " without any change for "
              + Math.round(number("hours"))
              + " h, while other sensors changed: restart it, check its wiring";
      case JUMPING ->
          text("sensor")
              + " jumps up and down by "
              + measured("step")
              + " or more, which is impossible in a sealed container: check its wiring and supply";
      case DISAGREEING ->
          text("sensor")
              + " and "
              + text("other")
              + " in the same container differ by "
              + measured("difference")
              + ", more than their errors allow: compare them side by side, and calibrate or"
              + " replace one";
      case CAME_TRUE -> "it has come true: see the alert " + text("kind");
      case NO_SENSOR -> "no sensor is placed in it any more";
      case BEGAN_EARLIER -> "it began earlier than was known then, at " + text("since");
      case BEFORE -> before();
    };
  }

  private String before() {
    String end = figures.containsKey("until") ? " to " + text("until") : "";
    String worst =
        figures.containsKey("worst")
            ? ", " + AlertText.number(number("worst")) + ' ' + text("unit") + " at worst"
            : "";
    return "the time before was from " + text("since") + end + worst;
  }

  private double number(String figure) {
    return ((Number) Objects.requireNonNull(figures.get(figure))).doubleValue();
  }

  private String text(String figure) {
    return String.valueOf(figures.get(figure));
  }

  private String measured(String figure) {
    Quantity quantity = Quantity.ofKey(text("quantity")).orElseThrow();
    return AlertText.number(number(figure)) + ' ' + quantity.unit();
  }
}
