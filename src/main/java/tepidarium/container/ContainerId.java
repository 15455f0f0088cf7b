package tepidarium.container;

import java.text.Normalizer;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import tepidarium.reading.InvalidInput;

/**
 * Identifies a container in topics and URLs: lower-case letters, digits and hyphens. {@code room}
 * is not a container; it identifies the surroundings.
 */
public record ContainerId(String value) {
  private static final Pattern FORM = Pattern.compile("[a-z0-9][a-z0-9-]{0,63}");
  private static final Pattern MARKS = Pattern.compile("\\p{M}+");
  private static final Pattern OTHERS = Pattern.compile("[^a-z0-9]+");

  /** The place of room sensors. Must be declared after the patterns, which its constructor uses. */
  public static final ContainerId ROOM = new ContainerId("room");

  public ContainerId {
    if (!FORM.matcher(value).matches()) {
      throw new InvalidInput(
          "\""
              + value
              + "\" is not a container id: use up to 64 lower-case letters, digits and hyphens");
    }
  }

  /** Parses an id; empty if the text is not a valid id. */
  public static Optional<ContainerId> ofText(String text) {
    return FORM.matcher(text).matches() ? Optional.of(new ContainerId(text)) : Optional.empty();
  }

  /** Creates an id from a name; appends a number if the id is taken. */
  public static ContainerId forName(String name, Set<ContainerId> taken) {
    String plain = MARKS.matcher(Normalizer.normalize(name, Normalizer.Form.NFD)).replaceAll("");
    String joined = OTHERS.matcher(plain.toLowerCase(Locale.ROOT)).replaceAll("-");
    String stem = joined.replaceAll("^-+|-+$", "");
    if (stem.length() > 56) {
      stem = stem.substring(0, 56).replaceAll("-+$", "");
    }
    if (stem.isEmpty()) {
      stem = "container";
    }
    ContainerId id = new ContainerId(stem);
    for (int number = 2; id.equals(ROOM) || taken.contains(id); number++) {
      id = new ContainerId(stem + "-" + number);
    }
    return id;
  }

  @Override
  public String toString() {
    return value;
  }
}
