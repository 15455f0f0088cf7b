package tepidarium.app;

import java.util.List;
import java.util.stream.Stream;

/** A configuration that cannot be used, with a line for everything that is wrong. */
final class ConfigException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final List<String> problems;

  ConfigException(List<String> problems) {
    super("the configuration has problems:\n  " + String.join("\n  ", problems));
    this.problems = List.copyOf(problems);
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
