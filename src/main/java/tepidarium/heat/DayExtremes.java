package tepidarium.heat;

import java.time.LocalDate;
import java.util.Locale;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * The lowest and highest temperature of a local day, entered by hand.
 *
 * @param minC °C, −40 to 80
 * @param maxC °C, −40 to 80, at least the lowest
 * @throws InvalidInput when a temperature is out of range or the lowest is above the highest
 */
public record DayExtremes(LocalDate day, double minC, double maxC) {
  private static final double MIN_C = -40;
  private static final double MAX_C = 80;

  public DayExtremes {
    within("min", minC);
    within("max", maxC);
    if (minC > maxC) {
      throw new InvalidInput(
          "max",
          String.format(Locale.ROOT, "%s °C must not be below min %s °C; check both", maxC, minC),
          InputRule.HIGHER.with(maxC, minC, "min", "°C"));
    }
  }

  private static void within(String name, double value) {
    if (!(value >= MIN_C && value <= MAX_C)) {
      throw InvalidInput.range(name, MIN_C, MAX_C, "°C");
    }
  }

  /**
   * The heat of the day by the single-sine method, °C·h; {@code hours} is the length of the local
   * day.
   */
  public double degreeHours(HeatRule rule, double hours) {
    return hours * SingleSine.degreeDays(minC, maxC, rule);
  }
}
