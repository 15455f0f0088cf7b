package tepidarium.importing;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.Unit;
import tepidarium.reading.Quantity;

/** Reads the unit behind a number in a cell, such as "°F" in "70.5 °F". */
final class CellUnit {
  private CellUnit() {}

  /** The unit; null if the quantity has no such unit. */
  static @Nullable Unit of(Quantity quantity, String text) {
    String symbol =
        switch (text.toLowerCase(Locale.ROOT)) {
          case "°c", "º c", "ºc", "c", "° c", "\u2103" -> "°C";
          case "°f", "ºf", "f", "° f", "\u2109" -> "°F";
          case "%", "%rh", "% rh", "rh" -> "%";
          case "lx", "lux" -> "lux";
          case "v" -> "V";
          case "mv" -> "mV";
          default -> text;
        };
    return Unit.of(quantity, symbol).orElse(null);
  }
}
