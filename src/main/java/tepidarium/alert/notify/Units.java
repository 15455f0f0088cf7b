package tepidarium.alert.notify;

import java.util.Locale;

/**
 * Formats temperatures and heat in °C or °F.
 *
 * @param fahrenheit true for °F
 */
public record Units(boolean fahrenheit) {
  /** A temperature given in °C; t °F = 1.8 t °C + 32, by definition. */
  String temperature(double celsius) {
    return fahrenheit ? number(celsius * 1.8 + 32) + " °F" : number(celsius) + " °C";
  }

  /** A temperature difference given in °C. */
  String difference(double celsius) {
    return fahrenheit ? number(celsius * 1.8) + " °F" : number(celsius) + " °C";
  }

  /** A sum of heat, given in °C·h. */
  String heat(double degreeHours) {
    return fahrenheit ? number(degreeHours * 1.8) + " °F·h" : number(degreeHours) + " °C·h";
  }

  /** A value in the API's unit. */
  String value(double value, String unit) {
    return unit.equals("°C") ? temperature(value) : number(value) + ' ' + unit;
  }

  /** A difference of two values in the API's unit. */
  String distance(double distance, String unit) {
    return unit.equals("°C") ? difference(distance) : number(distance) + ' ' + unit;
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value).replaceAll("\\.0$", "");
  }
}
