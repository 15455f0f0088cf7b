package tepidarium.app;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.BrokenRule;
import tepidarium.reading.InputRule;

/**
 * Checks values of settings and collects every mistake, so that one message can list them all. Each
 * check returns a value to continue with, even after a mistake.
 */
final class ConfigProblems {
  private static final Pattern HOST =
      Pattern.compile("[A-Za-z0-9._-]{1,253}|[0-9A-Fa-f:.]{2,45}(%\\w+)?");

  private final List<String> lines = new ArrayList<>();

  /** Of the last number that was out of its range. */
  private @Nullable BrokenRule broken;

  /** Checks that a whole number is in a range, both ends included. */
  int whole(String name, int value, int least, int most) {
    if (value < least || value > most) {
      lines.add(name + " must be from " + least + " to " + most + ", not " + value);
      broken = InputRule.WHOLE.with(least, most);
    }
    return value;
  }

  /** Checks that a number is in a range, both ends included. */
  double number(String name, double value, double least, double most) {
    if (!(value >= least && value <= most)) {
      lines.add(name + " must be from " + least + " to " + most + ", not " + value);
      broken = InputRule.RANGE.with(least, most, "");
    }
    return value;
  }

  /**
   * Checks a text.
   *
   * @param demand the end of the message, after the name of the setting
   */
  String that(String name, String value, Predicate<String> fits, String demand) {
    if (!fits.test(value)) {
      lines.add(name + " " + demand + ", not \"" + value + '"');
    }
    return value;
  }

  /** Checks the form of an address or host name to listen on, not whether it exists. */
  String host(String name, String value) {
    return that(
        name,
        value,
        host -> HOST.matcher(host).matches(),
        "must be an address or a host name, such as 127.0.0.1");
  }

  /** Checks that a value is not blank; null means that it is left out. */
  @Nullable String filled(String name, @Nullable String value) {
    if (value != null && value.isBlank()) {
      lines.add(name + " is empty; write a value or leave the setting out");
    }
    return value;
  }

  /** Checks that each name has a password. */
  Map<String, String> passwords(String name, Map<String, @Nullable String> given) {
    Map<String, String> passwords = new HashMap<>();
    given.forEach(
        (user, password) -> {
          if (user.isBlank()) {
            lines.add(name + " has an empty name");
          }
          if (password == null || password.isEmpty()) {
            lines.add(name + ' ' + user + " needs a password that is not empty");
          } else {
            passwords.put(user, password);
          }
        });
    return passwords;
  }

  Path path(String name, String value) {
    try {
      return Path.of(value);
    } catch (InvalidPathException e) {
      lines.add(name + " is no folder's name: " + e.getMessage());
      return Path.of("data");
    }
  }

  ZoneId zone(String name, @Nullable String value) {
    try {
      return value == null ? ZoneId.systemDefault() : ZoneId.of(value);
    } catch (DateTimeException e) {
      lines.add(name + " must be a time zone like Europe/Berlin or UTC, not \"" + value + '"');
      return ZoneId.of("UTC");
    }
  }

  /** Reports a value that has no effect because another setting is missing. */
  void without(String needed, String name, @Nullable String value) {
    if (value != null) {
      lines.add(name + " has no effect without " + needed);
    }
  }

  void add(String line) {
    lines.add(line);
  }

  /**
   * Ends the checks.
   *
   * @throws ConfigException if there was a mistake; it lists all of them
   */
  void raise() {
    if (!lines.isEmpty()) {
      throw new ConfigException(lines, broken);
    }
  }
}
