package tepidarium.ingest;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.EnumMap;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;

/**
 * The quantities of one reading as they are found. A bad one is rejected alone and does not cost
 * the others. Used by one thread for one reading.
 */
final class Values {
  private final EnumMap<Quantity, Double> good = new EnumMap<>(Quantity.class);
  private final BiConsumer<RejectCode, String> rejects;
  private boolean anyBad;

  Values(BiConsumer<RejectCode, String> rejects) {
    this.rejects = rejects;
  }

  /** Takes the value of a field; one that is missing or null is absent, which is no fault. */
  void take(Quantity quantity, Unit unit, @Nullable JsonNode field) {
    JsonNode given = Json.given(field);
    if (given != null) {
      double value = Numbers.of(given);
      if (!keep(quantity, unit, value)) {
        refuse(quantity, unit, value, Json.show(given));
      }
    }
  }

  /** Takes a number that was sent as plain text. */
  void take(Quantity quantity, Unit unit, String text) {
    double value = Numbers.of(text);
    if (!keep(quantity, unit, value)) {
      refuse(quantity, unit, value, Text.quote(text));
    }
  }

  private boolean keep(Quantity quantity, Unit unit, double value) {
    double stored = unit.toStored(value);
    boolean plausible = quantity.plausible(stored);
    if (plausible) {
      good.put(quantity, stored);
    }
    return plausible;
  }

  private void refuse(Quantity quantity, Unit unit, double value, String sent) {
    anyBad = true;
    String range = quantity.range();
    rejects.accept(
        Double.isNaN(value) ? RejectCode.NOT_A_NUMBER : RejectCode.OUT_OF_RANGE,
        Double.isNaN(value)
            ? quantity.key() + ' ' + sent + " is not a number: send a plain one, " + range
            : quantity.key()
                + ' '
                + inWords(unit, value)
                + " is outside "
                + range
                + ": check the sensor, its wiring and its unit");
  }

  private static String inWords(Unit unit, double value) {
    return unit.isStored()
        ? String.valueOf(value)
        : unit.toStored(value) + " (sent as " + value + ' ' + unit.symbol() + ')';
  }

  /** Whether no quantity was there at all, neither good nor bad. */
  boolean nothingFound() {
    return good.isEmpty() && !anyBad;
  }

  boolean anyGood() {
    return !good.isEmpty();
  }

  /** The good quantities as a reading; there must be one. */
  Reading reading(SensorId sensor, Instant at, @Nullable Arrival arrival) {
    return new Reading(sensor, at, good, arrival);
  }
}
