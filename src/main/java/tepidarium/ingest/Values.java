package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.EnumMap;
import java.util.Map;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * Collects the values of one reading. An invalid value is rejected; the other values are kept. Used
 * by one thread for one reading.
 */
final class Values {
  private final EnumMap<Quantity, Double> valid = new EnumMap<>(Quantity.class);
  private final BiConsumer<RejectCode, String> rejects;
  private final EnumMap<Quantity, Double> outOfRange = new EnumMap<>(Quantity.class);
  private boolean anyInvalid;

  Values(BiConsumer<RejectCode, String> rejects) {
    this.rejects = rejects;
  }

  /** Adds the value of a field. Ignores a field that is missing or null. */
  void add(Quantity quantity, Unit unit, @Nullable JsonNode field) {
    add(quantity, unit, Scale.NONE, field);
  }

  /** Adds the value of a field, which is scaled first. Ignores a field that is missing or null. */
  void add(Quantity quantity, Unit unit, Scale scale, @Nullable JsonNode field) {
    JsonNode value = PayloadJson.present(field);
    if (value != null) {
      addNumber(quantity, unit, scale.apply(Numbers.of(value)), PayloadJson.show(value));
    }
  }

  /** Adds a number that was sent as plain text. */
  void add(Quantity quantity, Unit unit, Scale scale, String text) {
    addNumber(quantity, unit, scale.apply(Numbers.of(text)), Text.quote(text));
  }

  /** Adds a whole number of packed bytes. */
  void add(Quantity quantity, Unit unit, Scale scale, long number) {
    addNumber(quantity, unit, scale.apply((double) number), Long.toString(number));
  }

  private void addNumber(Quantity quantity, Unit unit, double value, String sent) {
    if (!keep(quantity, unit, value)) {
      refuse(quantity, unit, value, sent);
    }
  }

  private boolean keep(Quantity quantity, Unit unit, double value) {
    double stored = unit.toStored(value);
    boolean plausible = quantity.plausible(stored);
    if (plausible) {
      valid.put(quantity, stored);
    }
    return plausible;
  }

  private void refuse(Quantity quantity, Unit unit, double value, String sent) {
    anyInvalid = true;
    double stored = unit.toStored(value);
    if (Double.isFinite(stored)) {
      outOfRange.put(quantity, stored);
    }
    String range = quantity.range();
    rejects.accept(
        Double.isNaN(value) ? RejectCode.NOT_A_NUMBER : RejectCode.OUT_OF_RANGE,
        Double.isNaN(value)
            ? quantity.key() + ' ' + sent + " is not a number: send a number, " + range
            : quantity.key()
                + ' '
                + describe(unit, value)
                + " is outside "
                + range
                + ": check the sensor, its wiring and its unit");
  }

  private static String describe(Unit unit, double value) {
    return unit.isStored()
        ? String.valueOf(value)
        : unit.toStored(value) + " (sent as " + value + ' ' + unit.symbol() + ')';
  }

  /** Whether no quantity was present, neither valid nor invalid. */
  boolean nothingFound() {
    return valid.isEmpty() && !anyInvalid;
  }

  boolean anyValid() {
    return !valid.isEmpty();
  }

  /** The finite values that were refused because of their range. */
  Map<Quantity, Double> outOfRange() {
    return outOfRange;
  }

  /** Creates a reading of the valid quantities. There must be at least one. */
  Reading reading(SensorId sensor, Instant at, @Nullable Arrival arrival) {
    return new Reading(sensor, at, valid, arrival);
  }
}
