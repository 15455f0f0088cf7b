package tepidarium.app;

import java.util.List;

/** A configuration that cannot be used, with a line for everything that is wrong. */
final class ConfigException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  ConfigException(List<String> problems) {
    super("the configuration has problems:\n  " + String.join("\n  ", problems));
  }
}
