package tepidarium.web.sensors;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.calibration.Settling;
import tepidarium.reading.Quantity;
import tepidarium.web.JsonValues;

/** Whether a sensor's newest readings are steady; see {@link Settling}. */
record SettlingJson(
    String quantity,
    String state,
    int readings,
    int readingsNeeded,
    double seconds,
    @Nullable Instant at,
    @Nullable Double mean,
    @Nullable Double drift,
    @Nullable Double spread,
    double driftLimit) {
  static SettlingJson of(Quantity quantity, Settling settling) {
    return new SettlingJson(
        quantity.key(),
        JsonValues.lower(settling.state()),
        settling.readings(),
        Settling.FEWEST_READINGS,
        settling.length().toMillis() / 1_000.0,
        settling.readings() == 0 ? null : settling.at(),
        number(settling.mean()),
        number(settling.drift()),
        number(settling.spread()),
        settling.driftLimit());
  }

  private static @Nullable Double number(double value) {
    return Double.isNaN(value) ? null : value;
  }
}
