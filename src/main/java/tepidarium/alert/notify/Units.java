package tepidarium.alert.notify;

import java.util.Locale;

/**
 * How notices are written: temperatures and heat in °C or °F, texts and numbers in a language.
 *
 * @param fahrenheit true for °F
 * @param language English or German
 */
public record Units(boolean fahrenheit, Locale language) {
  /** The same in English. */
  public Units(boolean fahrenheit) {
    this(fahrenheit, Locale.ENGLISH);
  }

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

  private String number(double value) {
    return String.format(language, "%.1f", value).replaceAll("[.,]0$", "");
  }
}
