package tepidarium.app;

import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.BrokenRule;

/** A configuration that cannot be used, with a line for everything that is wrong. */
final class ConfigException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final List<String> problems;
  private final transient @Nullable BrokenRule broken;

  ConfigException(List<String> problems) {
    this(problems, null);
  }

  /**
   * A configuration that cannot be used.
   *
   * @param broken the rule that a number breaks; null if none does
   */
  ConfigException(List<String> problems, @Nullable BrokenRule broken) {
    super("the configuration has problems:\n  " + String.join("\n  ", problems));
    this.problems = List.copyOf(problems);
    this.broken = problems.size() == 1 ? broken : null;
  }

  /** The rule that the only problem breaks, if it is a number out of its range. */
  @Nullable BrokenRule broken() {
    return broken;
  }

  /** What is wrong, one line for each mistake. */
  List<String> problems() {
    return problems;
  }

  /** Returns the same exception with a further line at the end. */
  ConfigException with(String line) {
    return new ConfigException(Stream.concat(problems.stream(), Stream.of(line)).toList());
  }
}
