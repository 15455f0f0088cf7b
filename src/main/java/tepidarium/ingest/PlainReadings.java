package tepidarium.ingest;

import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** Reads payloads of one plain number; the time of arrival is the time of measuring. */
final class PlainReadings {
  private PlainReadings() {}

  /** Reads the value. Removes quotation marks around it, which some devices send. */
  static void read(
      SensorId sensor, Quantity quantity, Unit unit, Scale scale, ReadingCollector collector)
      throws InterruptedException {
    Values values = new Values(collector::reject);
    // A number is short, so the beginning of a long payload is enough.
    String text = Text.beginning(collector.message().payload());
    values.add(quantity, unit, scale, withoutQuotes(text.strip()));
    if (values.anyValid()) {
      collector.add(sensor, Times.ofWhole(collector).of(null, null), values);
    } else {
      collector.addFaults(sensor, Times.ofWhole(collector).silently().of(null, null), values);
    }
  }

  /** Removes quotation marks around a text. */
  static String withoutQuotes(String text) {
    boolean quoted = text.length() > 1 && text.startsWith("\"") && text.endsWith("\"");
    return quoted ? text.substring(1, text.length() - 1) : text;
  }
}
