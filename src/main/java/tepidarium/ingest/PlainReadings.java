package tepidarium.ingest;

import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;

/** Reads payloads that are one plain number, measured when it arrived. */
final class PlainReadings {
  private PlainReadings() {}

  /** Takes the one value; quotation marks around it, which some devices send, are dropped. */
  static void read(SensorId sensor, Quantity quantity, Unit unit, Outcome outcome)
      throws InterruptedException {
    Values values = new Values(outcome::reject);
    // A number is short: the beginning of a long payload shows that it is none.
    String text = Text.beginning(outcome.message().payload());
    values.take(quantity, unit, bare(text.strip()));
    if (values.anyGood()) {
      outcome.keep(sensor, Times.ofWhole(outcome).of(null, null), values);
    }
  }

  private static String bare(String text) {
    boolean quoted = text.length() > 1 && text.startsWith("\"") && text.endsWith("\"");
    return quoted ? text.substring(1, text.length() - 1) : text;
  }
}
