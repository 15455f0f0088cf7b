package tepidarium.fault;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/**
 * A grower's decision about a faulty stretch. A later decision replaces an earlier one where they
 * overlap.
 *
 * @param quantity null for all quantities of the sensor
 * @param from start of the stretch, included
 * @param to end of the stretch, included
 * @param excluded whether figures leave the readings out
 * @param by name of the person
 */
public record FaultDecision(
    SensorId sensor,
    @Nullable Quantity quantity,
    FaultKind kind,
    Instant from,
    Instant to,
    boolean excluded,
    Instant decidedAt,
    String by) {
  public FaultDecision {
    if (to.isBefore(from)) {
      throw InvalidInput.order();
    }
  }

  boolean concerns(@Nullable Quantity other, FaultKind otherKind, long atMs) {
    return kind == otherKind
        && (quantity == null || quantity == other)
        && atMs >= from.toEpochMilli()
        && atMs <= to.toEpochMilli();
  }
}
