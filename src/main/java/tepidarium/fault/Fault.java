package tepidarium.fault;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;

/**
 * A stretch of faulty readings of one sensor.
 *
 * @param quantity the faulty quantity; null where the fault concerns all of them
 * @param from the first faulty reading
 * @param to the last one known so far
 * @param readings number of faulty readings; 0 where readings are not counted
 * @param low lowest faulty value, or another figure that {@link FaultWords} names
 * @param high highest faulty value, or another figure that {@link FaultWords} names
 * @param other the other sensor of a comparison; null for all kinds but {@link FaultKind#DRIFT}
 */
public record Fault(
    SensorId sensor,
    @Nullable Quantity quantity,
    FaultKind kind,
    Instant from,
    Instant to,
    int readings,
    double low,
    double high,
    @Nullable SensorId other) {

  static Fault of(SensorId sensor, @Nullable Quantity quantity, FaultKind kind, Stretch stretch) {
    return new Fault(
        sensor,
        quantity,
        kind,
        Instant.ofEpochMilli(stretch.fromMs()),
        Instant.ofEpochMilli(stretch.toMs()),
        stretch.readings(),
        stretch.low(),
        stretch.high(),
        null);
  }

  /** What is wrong and what to do, without the sensor's name. */
  public String reason() {
    return FaultWords.of(this);
  }

  /**
   * Whether the values were refused when they arrived, because no sensor can measure them. They are
   * not stored as readings, so figures cannot count them.
   */
  public boolean isRefused() {
    return quantity != null
        && kind.isErrorCode()
        && !(quantity.plausible(low) && quantity.plausible(high));
  }

  /** Whether the stretch, with both ends included, touches the span. */
  public boolean touches(Span span) {
    return from.isBefore(span.to()) && !to.isBefore(span.from());
  }

  /** The fault as it is known at an instant: a fault found by day ends with the day. */
  public Fault until(Instant now) {
    return to.isAfter(now) && !from.isAfter(now)
        ? new Fault(sensor, quantity, kind, from, now, readings, low, high, other)
        : this;
  }

  /**
   * Whether a later fault of the same sensor, quantity and kind continues this one, with at most
   * {@code joinMs} between.
   */
  boolean continuesIn(Fault later, long joinMs) {
    return kind != FaultKind.JUMP && later.from.toEpochMilli() - to.toEpochMilli() <= joinMs;
  }

  /** Merges a fault that continues this one. */
  Fault plus(Fault later) {
    boolean ends = later.to.isAfter(to);
    return new Fault(
        sensor,
        quantity,
        kind,
        from,
        ends ? later.to : to,
        readings + later.readings,
        Math.min(low, later.low),
        Math.max(high, later.high),
        other);
  }
}
