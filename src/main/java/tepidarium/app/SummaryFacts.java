package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.DailySummary;
import tepidarium.alert.notify.DailySummary.LowBattery;
import tepidarium.container.Register;
import tepidarium.live.LatestValues;
import tepidarium.reading.SensorId;
import tepidarium.sensor.BatteryForecast;
import tepidarium.sensor.SensorBook;
import tepidarium.web.sensors.SensorActivities;

/**
 * Collects what the daily summary says about containers, sensors, disk and batteries. Thread-safe.
 */
final class SummaryFacts implements Supplier<DailySummary> {
  private static final Duration HEARD_WITHIN = Duration.ofHours(24);
  private static final double MONTH_DAYS = 30;

  /** Longest wait for the forecasts; a sensor without one then is not in the summary. */
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(1);

  private final Register register;
  private final LatestValues latestValues;
  private final SensorBook book;
  private final SensorActivities activities;
  private final Supplier<String> disk;
  private final Clock clock;

  SummaryFacts(
      Register register,
      LatestValues latestValues,
      SensorBook book,
      SensorActivities activities,
      Supplier<String> disk,
      Clock clock) {
    this.disk = disk;
    this.register = register;
    this.latestValues = latestValues;
    this.book = book;
    this.activities = activities;
    this.clock = clock;
  }

  @Override
  public DailySummary get() {
    Instant earliest = clock.instant().minus(HEARD_WITHIN);
    List<SensorId> heard =
        latestValues.sensors().stream()
            .filter(sensor -> book.details(sensor).retiredAt() == null)
            .filter(
                sensor ->
                    latestValues
                        .of(sensor)
                        .filter(summary -> !summary.last().isBefore(earliest))
                        .isPresent())
            .toList();
    activities.load(heard, LONGEST_WAIT);
    List<LowBattery> batteries = new ArrayList<>();
    for (SensorId sensor : heard) {
      Double days = daysLeft(activities.battery(sensor));
      if (days != null) {
        batteries.add(new LowBattery(sensor.name(), days));
      }
    }
    batteries.sort(Comparator.comparing(LowBattery::days).thenComparing(LowBattery::sensor));
    return new DailySummary(register.containers().size(), heard.size(), disk.get(), batteries);
  }

  /** Null if the battery lasts longer than a month, or it is not known how long. */
  private static @Nullable Double daysLeft(@Nullable BatteryForecast forecast) {
    if (forecast == null) {
      return null;
    }
    Double days = forecast.daysLeft();
    if (days != null && days <= MONTH_DAYS) {
      return days;
    }
    return forecast.low() ? 0.0 : null;
  }
}
