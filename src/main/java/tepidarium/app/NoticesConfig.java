package tepidarium.app;

import jakarta.mail.internet.AddressException;
import jakarta.mail.internet.InternetAddress;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;
import tepidarium.alert.notify.NoticeSettings;
import tepidarium.alert.notify.QuietHours;
import tepidarium.alert.notify.Units;
import tepidarium.alert.notify.channel.EmailNotifier;
import tepidarium.alert.notify.channel.MailServer;

/**
 * Holds the section {@code notices} of the settings: who gets notices, how and when.
 *
 * @param publicUrl address of the pages from outside, without a slash at its end; null for notices
 *     without a link
 * @param email null for none
 * @param webhook null for none
 * @param heartbeat null for none
 * @param rules when notices are sent
 * @param limits limits beyond which the service reports trouble of its own
 */
public record NoticesConfig(
    @Nullable String publicUrl,
    Units units,
    @Nullable Email email,
    @Nullable Webhook webhook,
    @Nullable Heartbeat heartbeat,
    NoticeSettings rules,
    SelfWatch.Limits limits) {

  /** E-mail receivers, and the receiver of alerts that nobody acknowledges. */
  public record Email(MailServer server, List<String> to, @Nullable String escalateTo) {}

  /** A program that gets each notice by HTTP. */
  public record Webhook(URI url, @Nullable String secret) {
    @Override
    public String toString() {
      return "Webhook[" + url.getHost() + ']';
    }
  }

  /** An address that the service calls at regular intervals. */
  public record Heartbeat(URI url, Duration every) {
    @Override
    public String toString() {
      return "Heartbeat[" + url.getHost() + ']';
    }
  }

  private static final Pattern HOURS =
      Pattern.compile("([0-2]?\\d:[0-5]\\d)\\s*-\\s*([0-2]?\\d:[0-5]\\d)");

  /** Returns the settings without a section {@code notices}: open pages and MQTT get notices. */
  static NoticesConfig unset(ZoneId zone) {
    ConfigProblems none = new ConfigProblems();
    return new File(
            null, null, null, null, null, null, null, null, null, null, null, null, null, null)
        .checked(none, Map.of(), zone);
  }

  /** An SMTP server, as it is written in a file. */
  record EmailFile(
      @Nullable String host,
      @Nullable Integer port,
      @Nullable String tls,
      @Nullable String user,
      @Nullable String password,
      @Nullable String passwordEnv,
      @Nullable String passwordFile,
      @Nullable String from,
      @Nullable String to,
      @Nullable String escalateTo,
      @Nullable String certificateFile) {

    Email checked(ConfigProblems problems, Map<String, String> environment) {
      MailServer.Tls encryption = tls(problems);
      String secret =
          secret(
              problems, environment, "notices.email.password", password, passwordEnv, passwordFile);
      if (user == null) {
        problems.without("notices.email.user", "notices.email.password", secret);
      } else if (secret == null) {
        problems.add("notices.email.user needs a password, passwordEnv or passwordFile");
      }
      int usual = encryption == MailServer.Tls.IMPLICIT ? 465 : 587;
      String sender = address(problems, "notices.email.from", from);
      MailServer server =
          new MailServer(
              needed(problems, "notices.email.host", host),
              problems.whole("notices.email.port", port == null ? usual : port, 1, 65_535),
              encryption,
              user,
              secret,
              sender,
              certificate(problems));
      List<String> receivers =
          Arrays.stream(needed(problems, "notices.email.to", to).split(",", -1))
              .map(String::strip)
              .filter(each -> !each.isEmpty())
              .map(each -> address(problems, "notices.email.to", each))
              .toList();
      String second =
          escalateTo == null ? null : address(problems, "notices.email.escalateTo", escalateTo);
      return new Email(server, receivers, second);
    }

    private MailServer.Tls tls(ConfigProblems problems) {
      try {
        return tls == null
            ? MailServer.Tls.STARTTLS
            : MailServer.Tls.valueOf(tls.toUpperCase(Locale.ROOT));
      } catch (IllegalArgumentException e) {
        problems.add("notices.email.tls must be starttls, implicit or none, not \"" + tls + '"');
        return MailServer.Tls.STARTTLS;
      }
    }

    private @Nullable String certificate(ConfigProblems problems) {
      if (certificateFile == null) {
        return null;
      }
      String pem = text(problems, "notices.email.certificateFile", certificateFile);
      try {
        MailServer trial =
            new MailServer("localhost", 25, MailServer.Tls.STARTTLS, null, null, "a@b", pem);
        new EmailNotifier("trial", trial, "a@b", false);
        return pem;
      } catch (IllegalArgumentException e) {
        problems.add("notices.email.certificateFile \"" + certificateFile + "\" " + e.getMessage());
        return null;
      }
    }
  }

  /** A webhook, as it is written in a file. */
  record WebhookFile(
      @Nullable String url,
      @Nullable String secret,
      @Nullable String secretEnv,
      @Nullable String secretFile) {

    Webhook checked(ConfigProblems problems, Map<String, String> environment) {
      return new Webhook(
          web(problems, "notices.webhook.url", needed(problems, "notices.webhook.url", url)),
          NoticesConfig.secret(
              problems, environment, "notices.webhook.secret", secret, secretEnv, secretFile));
    }
  }

  /** The section as it is written in a file. A missing setting is null and gets its default. */
  record File(
      @Nullable String publicUrl,
      @Nullable String temperatureUnit,
      @Nullable EmailFile email,
      @Nullable WebhookFile webhook,
      @Nullable String heartbeatUrl,
      @Nullable Double heartbeatMinutes,
      @Nullable Map<String, @Nullable String> quietHours,
      @Nullable Double escalateAfterMinutes,
      @Nullable Double remindAfterHours,
      @Nullable Boolean tellReturned,
      @Nullable Integer collectSeconds,
      @Nullable Double giveUpAfterHours,
      @Nullable Double brokerAwayMinutes,
      @Nullable Integer diskFreeMegabytes) {

    private static final int COLLECT_SECONDS = 60;
    private static final int SPACING_SECONDS = 600;

    NoticesConfig checked(ConfigProblems problems, Map<String, String> environment, ZoneId zone) {
      Email checkedEmail = email == null ? null : email.checked(problems, environment);
      boolean second = checkedEmail != null && checkedEmail.escalateTo() != null;
      if (escalateAfterMinutes != null && !second) {
        problems.add("notices.escalateAfterMinutes means nothing without notices.email.escalateTo");
      }
      int collect =
          problems.whole(
              "notices.collectSeconds",
              collectSeconds == null ? COLLECT_SECONDS : collectSeconds,
              0,
              3_600);
      NoticeSettings rules =
          new NoticeSettings(
              Duration.ofSeconds(collect),
              Duration.ofSeconds(Math.min(SPACING_SECONDS, 10L * collect)),
              second ? span(problems, "escalateAfterMinutes", minutes(), 1, 10_080, 1) : null,
              remindAfterHours == null
                  ? null
                  : span(problems, "remindAfterHours", remindAfterHours, 0.5, 720, 60),
              tellReturned == null || tellReturned,
              quiet(problems),
              zone,
              span(problems, "giveUpAfterHours", or(giveUpAfterHours, 24), 0.1, 720, 60));
      SelfWatch.Limits limits =
          new SelfWatch.Limits(
              span(problems, "brokerAwayMinutes", or(brokerAwayMinutes, 10), 1, 10_080, 1),
              (long)
                      problems.whole(
                          "notices.diskFreeMegabytes",
                          diskFreeMegabytes == null ? 500 : diskFreeMegabytes,
                          1,
                          1 << 20)
                  << 20);
      return new NoticesConfig(
          publicUrl == null ? null : withoutSlash(problems, publicUrl),
          units(problems),
          checkedEmail,
          webhook == null ? null : webhook.checked(problems, environment),
          heartbeat(problems),
          rules,
          limits);
    }

    private double minutes() {
      return or(escalateAfterMinutes, 30);
    }

    private static double or(@Nullable Double value, double otherwise) {
      return value == null ? otherwise : value;
    }

    private static Duration span(
        ConfigProblems problems, String name, double value, double least, double most, int unit) {
      double good = problems.number("notices." + name, value, least, most);
      return Duration.ofMillis(Math.round(good * unit * 60_000));
    }

    private @Nullable Heartbeat heartbeat(ConfigProblems problems) {
      Duration every = span(problems, "heartbeatMinutes", or(heartbeatMinutes, 5), 0.1, 1_440, 1);
      if (heartbeatUrl == null) {
        if (heartbeatMinutes != null) {
          problems.add("notices.heartbeatMinutes means nothing without notices.heartbeatUrl");
        }
        return null;
      }
      return new Heartbeat(web(problems, "notices.heartbeatUrl", heartbeatUrl), every);
    }

    private static String withoutSlash(ConfigProblems problems, String url) {
      return web(problems, "notices.publicUrl", url).toString().replaceAll("/+$", "");
    }

    private Units units(ConfigProblems problems) {
      String unit = temperatureUnit == null ? "°C" : temperatureUnit;
      if (!List.of("°C", "C", "°F", "F").contains(unit)) {
        problems.add("notices.temperatureUnit must be °C or °F, not \"" + unit + '"');
      }
      return new Units(unit.endsWith("F"));
    }

    private Map<Priority, QuietHours> quiet(ConfigProblems problems) {
      Map<Priority, QuietHours> quiet = new EnumMap<>(Priority.class);
      if (quietHours != null) {
        quietHours.forEach((priority, hours) -> quiet(problems, quiet, priority, hours));
      }
      return quiet;
    }

    private static void quiet(
        ConfigProblems problems,
        Map<Priority, QuietHours> quiet,
        String key,
        @Nullable String given) {
      String hours = given == null ? "" : given;
      Priority priority = priority(key);
      if (priority == null) {
        problems.add("notices.quietHours knows low, medium and high, not \"" + key + '"');
        return;
      }
      Matcher times = HOURS.matcher(hours);
      if (!times.matches()) {
        problems.add(
            "notices.quietHours." + key + " must be like \"22:00-07:00\", not \"" + hours + '"');
        return;
      }
      try {
        quiet.put(priority, new QuietHours(time(times.group(1)), time(times.group(2))));
      } catch (DateTimeException e) {
        problems.add("notices.quietHours." + key + ": \"" + hours + "\" is no time of day");
      } catch (IllegalArgumentException e) {
        problems.add("notices.quietHours." + key + ": " + e.getMessage());
      }
    }

    private static @Nullable Priority priority(String key) {
      return Arrays.stream(Priority.values())
          .filter(each -> each.name().equalsIgnoreCase(key))
          .findFirst()
          .orElse(null);
    }

    private static LocalTime time(String text) {
      return LocalTime.parse(text.length() == 4 ? '0' + text : text);
    }
  }

  private static String needed(ConfigProblems problems, String name, @Nullable String value) {
    if (value == null || value.isBlank()) {
      problems.add(name + " is needed");
      return "missing";
    }
    return value.strip();
  }

  private static String address(ConfigProblems problems, String name, @Nullable String value) {
    if (value == null || value.isBlank()) {
      problems.add(name + " is needed");
      return "missing@localhost";
    }
    try {
      InternetAddress address = new InternetAddress(value.strip(), true);
      if (address.getAddress().contains("@")) {
        return address.getAddress();
      }
    } catch (AddressException e) {
      // Reported below, together with addresses that name no host.
    }
    problems.add(name + " must be an address like ida@example.org, not \"" + value + '"');
    return value;
  }

  private static URI web(ConfigProblems problems, String name, String value) {
    try {
      URI uri = URI.create(value);
      boolean known = "http".equals(uri.getScheme()) || "https".equals(uri.getScheme());
      if (known && uri.getHost() != null && uri.getUserInfo() == null) {
        return uri;
      }
    } catch (IllegalArgumentException e) {
      // Reported below.
    }
    problems.add(name + " must be an address like https://example.org/path, without a password");
    return URI.create("http://localhost/");
  }

  /** Reads a secret from the settings, or from the environment variable or file that they name. */
  private static @Nullable String secret(
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
      String found = environment.get(variable);
      if (found == null) {
        problems.add(name + "Env: there is no \"" + variable + "\" in the environment");
      }
      return problems.filled(name + "Env", found);
    }
    return file == null
        ? problems.filled(name, value)
        : problems.filled(name + "File", text(problems, name + "File", file).strip());
  }

  private static String text(ConfigProblems problems, String name, String file) {
    try {
      return Files.readString(Path.of(file), StandardCharsets.UTF_8);
    } catch (IOException | InvalidPathException e) {
      problems.add(name + ": cannot read \"" + file + '"');
      return "";
    }
  }
}
