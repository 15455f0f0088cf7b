package tepidarium.importing;

import java.util.List;
import java.util.regex.Pattern;
import tepidarium.importing.ImportTexts.Setting;
import tepidarium.reading.InvalidInput;

/** Guesses whether numbers have a decimal comma or a decimal point. */
final class DecimalGuess {
  private static final Pattern GROUPED = Pattern.compile("[+-]?\\d{1,3}([.,]\\d{3})+");

  private int points;
  private int commas;
  private int groupedPoints;
  private int groupedCommas;

  private record Decision(boolean comma, String reason) {}

  private DecimalGuess() {}

  /**
   * Returns the decimal separator and adds the reason to the guesses.
   *
   * @param columns indexes of the columns with values
   * @throws InvalidInput if the numbers do not decide
   */
  static char guess(
      LoggerTable table, List<Integer> columns, ImportOptions options, List<Guess> guesses) {
    ImportTexts texts = options.texts();
    Boolean set = options.decimalComma();
    if (set != null) {
      guesses.add(
          texts.guess("decimal", texts.say(set ? "comma" : "point"), texts.setBy(Setting.DECIMAL)));
      return set ? ',' : '.';
    }
    DecimalGuess seen = new DecimalGuess();
    for (List<String> row : table.rows()) {
      columns.forEach(column -> seen.add(row.get(column).strip()));
    }
    Decision decision = seen.decide(table.delimiter(), texts);
    guesses.add(
        texts.guess("decimal", texts.say(decision.comma() ? "comma" : "point"), decision.reason()));
    return decision.comma() ? ',' : '.';
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

  private Decision decide(char delimiter, ImportTexts texts) {
    if (points > 0 && commas > 0) {
      throw texts.refusal("mixed-decimals", texts.of(Setting.DECIMAL));
    }
    if (commas > 0) {
      return new Decision(true, texts.say("why.decimals", "21,5"));
    }
    if (points > 0) {
      return new Decision(false, texts.say("why.decimals", "21.5"));
    }
    if (groupedCommas > 0 && delimiter == ',') {
      throw texts.refusal("ambiguous-decimal", texts.of(Setting.DECIMAL));
    }
    if (groupedCommas > 0) {
      return new Decision(true, texts.say("why.comma-table"));
    }
    return new Decision(
        false,
        groupedPoints > 0 ? texts.say("why.decimals", "21.375") : texts.say("why.no-decimals"));
  }
}
