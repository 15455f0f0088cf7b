package tepidarium.germination;

import java.util.Arrays;
import java.util.Locale;
import tepidarium.reading.InvalidInput;

/**
 * Seeds discarded at a check for one reason.
 *
 * @param germinated whether the seeds had germinated before they were discarded
 */
public record Culled(int count, CullReason reason, boolean germinated) {
  public Culled {
    Require.count("culled.count", count, 1);
  }

  /** The text of a table cell, such as {@code 2 mould} or {@code 1 dead germinated}. */
  String text() {
    String plain = count + " " + reason.name().toLowerCase(Locale.ROOT);
    return germinated ? plain + " germinated" : plain;
  }

  static Culled parse(String text) {
    String[] words = text.strip().split(" +", -1);
    boolean germinated = words.length == 3 && words[2].equals("germinated");
    if (words.length < 2 || (words.length > 2 && !germinated)) {
      throw new InvalidInput(
          "culled", "must read like \"2 mould\" or \"1 dead germinated\", not \"" + text + '"');
    }
    return new Culled(Counts.parse("culled", words[0]), reason(words[1]), germinated);
  }

  /**
   * The reason with a name, in upper or lower case.
   *
   * @throws InvalidInput if there is none; the message lists all reasons
   */
  public static CullReason reason(String name) {
    return Arrays.stream(CullReason.values())
        .filter(reason -> reason.name().equalsIgnoreCase(name))
        .findFirst()
        .orElseThrow(
            () ->
                new InvalidInput(
                    "culled.reason must be mould, dead, empty, eaten, taken or other, not \""
                        + name
                        + '"'));
  }
}
