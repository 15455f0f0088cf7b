package tepidarium.app;

import jakarta.mail.internet.AddressException;
import jakarta.mail.internet.InternetAddress;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Checks addresses, secrets and files in the section {@code notices} of the settings. */
final class NoticeChecks {
  static final String PLACEHOLDER_EMAIL = "missing@localhost";
  static final String PLACEHOLDER_URL = "http://localhost/";

  private NoticeChecks() {}

  /**
   * Reports a missing or blank value.
   *
   * @param placeholder returned for a missing value; must pass all further checks of the value, so
   *     that they report no second problem
   */
  static String required(
      ConfigProblems problems, String name, @Nullable String value, String placeholder) {
    if (value == null || value.isBlank()) {
      problems.add(name + " is needed");
      return placeholder;
    }
    return value.strip();
  }

  /** Checks an e-mail address. */
  static String emailAddress(ConfigProblems problems, String name, @Nullable String value) {
    String text = required(problems, name, value, PLACEHOLDER_EMAIL);
    try {
      InternetAddress address = new InternetAddress(text, true);
      if (address.getAddress().contains("@")) {
        return address.getAddress();
      }
    } catch (AddressException e) {
      // Reported below, together with addresses that name no host.
    }
    problems.add(name + " must be an address like ida@example.org, not \"" + text + '"');
    return text;
  }

  /** Checks an HTTP or HTTPS address; it must not contain a password. */
  static URI webAddress(ConfigProblems problems, String name, String value) {
    try {
      URI uri = URI.create(value);
      boolean supported = "http".equals(uri.getScheme()) || "https".equals(uri.getScheme());
      if (supported && uri.getHost() != null && uri.getUserInfo() == null) {
        return uri;
      }
    } catch (IllegalArgumentException e) {
      // Reported below.
    }
    problems.add(name + " must be an address like https://example.org/path, without a password");
    return URI.create(PLACEHOLDER_URL);
  }

  /** Reads a secret from the settings, or from the environment variable or file that they name. */
  static @Nullable String secret(
      ConfigProblems problems,
      Map<String, String> environment,
      String name,
      @Nullable String value,
      @Nullable String variable,
      @Nullable String file) {
    if (Arrays.stream(new String[] {value, variable, file}).filter(s -> s != null).count() > 1) {
      problems.add("set only one of " + name + ", " + name + "Env and " + name + "File");
    }
    if (variable != null) {
      String secret = environment.get(variable);
      if (secret == null) {
        problems.add(name + "Env: there is no environment variable \"" + variable + '"');
      }
      return problems.filled(name + "Env", secret);
    }
    return file == null
        ? problems.filled(name, value)
        : problems.filled(name + "File", fileText(problems, name + "File", file).strip());
  }

  /** Reads a text file; reports a file that cannot be read. */
  static String fileText(ConfigProblems problems, String name, String file) {
    try {
      return Files.readString(Path.of(file), StandardCharsets.UTF_8);
    } catch (IOException | InvalidPathException e) {
      problems.add(name + ": cannot read \"" + file + '"');
      return "";
    }
  }
}
