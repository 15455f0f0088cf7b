package tepidarium.germination;

import java.util.Comparator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tepidarium.reading.InvalidInput;

/** The id of a seed group: the number of its sowing and its own number, such as 3-1. */
public record GroupId(long sowing, int number) implements Comparable<GroupId> {
  private static final Pattern FORM = Pattern.compile("([1-9]\\d{0,14})-([1-9]\\d{0,6})");
  private static final Comparator<GroupId> ORDER =
      Comparator.comparingLong(GroupId::sowing).thenComparingInt(GroupId::number);

  /**
   * Parses an id.
   *
   * @throws InvalidInput if the text is not an id
   */
  public static GroupId parse(String text) {
    Matcher parts = FORM.matcher(text);
    if (!parts.matches()) {
      throw new InvalidInput(
          "\"" + text + "\" is not the id of a seed group; an id looks like 3-1");
    }
    return new GroupId(Long.parseLong(parts.group(1)), Integer.parseInt(parts.group(2)));
  }

  @Override
  public int compareTo(GroupId other) {
    return ORDER.compare(this, other);
  }

  @Override
  public String toString() {
    return sowing + "-" + number;
  }
}
