package tepidarium.importing;

import java.util.List;
import java.util.regex.Pattern;
import tepidarium.importing.SettingNames.Setting;
import tepidarium.reading.InvalidInput;

/** Guesses whether numbers have a decimal comma or a decimal point. */
final class DecimalGuess {
  private static final Pattern GROUPED = Pattern.compile("[+-]?\\d{1,3}([.,]\\d{3})+");

  private int points;
  private int commas;
  private int groupedPoints;
  private int groupedCommas;

  private DecimalGuess() {}

  /**
   * Returns the decimal separator and adds the reason to the guesses.
   *
   * @param columns indexes of the columns with values
   * @throws InvalidInput if the numbers do not decide
   */
  static char guess(
      LoggerTable table, List<Integer> columns, ImportOptions options, List<Guess> guesses) {
    Boolean set = options.decimalComma();
    if (set != null) {
      guesses.add(
          new Guess(
              "decimal separator",
              set ? "comma" : "point",
              options.names().setBy(Setting.DECIMAL)));
      return set ? ',' : '.';
    }
    DecimalGuess seen = new DecimalGuess();
    for (List<String> row : table.rows()) {
      columns.forEach(column -> seen.add(row.get(column).strip()));
    }
    Guess guess = seen.decide(table.delimiter(), options.names().of(Setting.DECIMAL));
    guesses.add(guess);
    return guess.value().equals("comma") ? ',' : '.';
  }

  private void add(String cell) {
    String number = cell.substring(0, NumberText.end(cell));
    int point = number.lastIndexOf('.');
    int comma = number.lastIndexOf(',');
    if (point < 0 && comma < 0) {
      return;
    }
    if (point >= 0 && comma >= 0) {
      points += point > comma ? 1 : 0;
      commas += comma > point ? 1 : 0;
    } else if (GROUPED.matcher(number).matches()) {
      groupedPoints += point >= 0 ? 1 : 0;
      groupedCommas += comma >= 0 ? 1 : 0;
    } else {
      points += point >= 0 ? 1 : 0;
      commas += comma >= 0 ? 1 : 0;
    }
  }

  private Guess decide(char delimiter, String setting) {
    if (points > 0 && commas > 0) {
      throw new InvalidInput(
          "some numbers have a decimal comma and some a decimal point, so the columns are mixed."
              + " Set "
              + setting
              + " to comma or point; the other rows are then rejected");
    }
    if (commas > 0) {
      return new Guess("decimal separator", "comma", "numbers such as 21,5");
    }
    if (points > 0) {
      return new Guess("decimal separator", "point", "numbers such as 21.5");
    }
    if (groupedCommas > 0 && delimiter == ',') {
      throw new InvalidInput(
          "a number such as \"1,234\" can be 1.234 or 1234, and no other number decides. Set "
              + setting
              + " to comma or point");
    }
    return groupedCommas > 0
        ? new Guess(
            "decimal separator", "comma", "numbers with a comma in a table of other delimiters")
        : new Guess(
            "decimal separator",
            "point",
            groupedPoints > 0 ? "numbers such as 21.375" : "no number has decimals");
  }
}
