package tepidarium.web.sensors;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.sensor.BatteryForecast;
import tepidarium.sensor.ReportingRecord;

/**
 * The JSON form of how regularly a sensor reports, and of the forecast of its battery.
 *
 * @param lateSeconds how long a reading is overdue; null if the usual interval is not known, or the
 *     sensor is retired
 */
record ActivityJson(
    @Nullable Double usualIntervalSeconds,
    @Nullable Double lateSeconds,
    boolean late,
    GapsJson gaps,
    @Nullable BatteryJson battery) {

  record GapJson(int count, double hours) {
    static GapJson of(ReportingRecord.Gaps gaps) {
      return new GapJson(gaps.count(), gaps.total().toMillis() / 3_600_000.0);
    }
  }

  record GapsJson(GapJson day, GapJson week) {}

  record BatteryJson(
      double volts,
      @Nullable Double emptyVolts,
      @Nullable Double voltsPerDay,
      @Nullable Double daysLeft,
      @Nullable Double daysLeast,
      @Nullable Double daysMost,
      boolean low,
      @Nullable String reason) {
    static BatteryJson of(BatteryForecast forecast) {
      BatteryForecast.Reason reason = forecast.reason();
      return new BatteryJson(
          forecast.volts(),
          forecast.emptyVolts(),
          forecast.voltsPerDay(),
          forecast.daysLeft(),
          forecast.daysLeast(),
          forecast.daysMost(),
          forecast.low(),
          reason == null ? null : reason.key());
    }
  }

  /**
   * Creates the JSON.
   *
   * @param last the sensor's latest reading
   * @param retired whether it is out of use, and so cannot be late
   */
  static ActivityJson of(
      ReportingRecord reporting,
      @Nullable BatteryForecast battery,
      Instant last,
      Instant now,
      boolean retired) {
    return new ActivityJson(
        seconds(reporting.usualInterval()),
        retired ? null : seconds(reporting.lateness(last, now)),
        !retired && reporting.late(last, now),
        new GapsJson(GapJson.of(reporting.lastDay()), GapJson.of(reporting.lastWeek())),
        battery == null ? null : BatteryJson.of(battery));
  }

  private static @Nullable Double seconds(@Nullable Duration duration) {
    return duration == null ? null : duration.toMillis() / 1_000.0;
  }
}
