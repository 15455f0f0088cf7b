package tepidarium.fault;

import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import tepidarium.reading.Quantity;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/** Invented readings, one a minute over {@link #DAYS} days around day {@link #DAY}. */
final class InventedSeries {
  static final SensorId PROBE = new SensorId("probe");
  static final long DAY = 20_000;
  static final int DAYS = 4;
  static final int MINUTES = DAYS * 1440;
  static final long START_MS = (DAY - 1) * SensorDay.DAY_MS;

  private InventedSeries() {}

  static long at(int minute) {
    return START_MS + minute * 60_000L;
  }

  static Samples of(IntToDoubleFunction value) {
    Samples.Builder samples = new Samples.Builder(MINUTES);
    for (int minute = 0; minute < MINUTES; minute++) {
      samples.add(at(minute), value.applyAsDouble(minute));
    }
    return samples.build();
  }

  /** Rounds to the resolution of a sensor. */
  static double rounded(double value, double step) {
    return Math.round(value / step) * step;
  }

  /** A closet that follows the day of its room, with the noise of a sensor. */
  static IntToDoubleFunction closet(Random random, double noise, double step) {
    return minute ->
        rounded(
            30 + 0.8 * Math.sin(2 * Math.PI * minute / 1440) + noise * random.nextGaussian(), step);
  }

  /** A mat that switches every 12 min, with 1.5 °C between the extremes. */
  static IntToDoubleFunction mat(Random random) {
    return minute -> {
      int phase = minute % 24;
      double wave = (phase < 12 ? phase : 24 - phase) / 12.0 * 1.5;
      return rounded(30 + wave + 0.05 * random.nextGaussian(), 0.0625);
    };
  }

  /** The same with the lid off for 5 min every eight hours: down by 6 °C, back within an hour. */
  static IntToDoubleFunction opened(IntToDoubleFunction closed) {
    return minute -> {
      int since = minute % 480 - 200;
      double fall =
          since < 0 ? 0 : since <= 5 ? 6 * since / 5.0 : 6 * Math.exp(-(since - 5) / 15.0);
      return rounded(closed.applyAsDouble(minute) - fall, 0.0625);
    };
  }

  /** The same with one value from midnight (UTC) to 05:00, which no resolution gives otherwise. */
  static IntToDoubleFunction steadyAtNight(IntToDoubleFunction day) {
    return minute -> minute % 1440 < 300 ? 29.973 : day.applyAsDouble(minute);
  }

  static SensorDay search(long day, Quantity quantity, Samples samples) {
    return search(day, Map.of(quantity, samples));
  }

  static SensorDay search(long day, Map<Quantity, Samples> samples) {
    Span span = DaySearch.needed(day);
    Map<Quantity, Samples> needed = new EnumMap<>(Quantity.class);
    samples.forEach(
        (quantity, all) -> needed.put(quantity, all.between(span.fromMs(), span.toMs())));
    return DaySearch.of(PROBE, day, needed);
  }
}
