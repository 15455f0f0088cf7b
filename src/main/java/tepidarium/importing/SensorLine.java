package tepidarium.importing;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Finds the name of a sensor in the lines before the header, such as "Serial number: A-17". */
final class SensorLine {
  private static final Pattern NAMED =
      Pattern.compile(
          "(?i)\\W*(serial|s/n|sn|logger|device|name|sensor|station|seriennummer|ger\u00e4t)"
              + "[ \\w]{0,12}[:=\t]\\W*(\\S.*?)\\W*");

  private SensorLine() {}

  static @Nullable Guess find(LoggerTable table, ImportTexts texts) {
    for (List<String> cells : table.preamble()) {
      List<String> filled = cells.stream().map(String::strip).filter(c -> !c.isEmpty()).toList();
      String line =
          filled.size() == 2 && !filled.get(0).endsWith(":")
              ? filled.get(0) + ": " + filled.get(1)
              : String.join(" ", filled);
      Matcher named = NAMED.matcher(line);
      if (filled.size() <= 2 && named.matches()) {
        return texts.guess("sensor", named.group(2), texts.say("why.sensor-line", line));
      }
    }
    return null;
  }
}
