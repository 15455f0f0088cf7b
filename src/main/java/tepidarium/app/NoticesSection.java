package tepidarium.app;

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

/**
 * The section {@code notices} of a settings file, before the checks. A missing setting is null and
 * gets its default.
 */
record NoticesSection(
    @Nullable String publicUrl,
    @Nullable String language,
    @Nullable String temperatureUnit,
    @Nullable EmailSection email,
    @Nullable WebhookSection webhook,
    @Nullable String heartbeatUrl,
    @Nullable Double heartbeatMinutes,
    @Nullable Map<String, @Nullable String> quietHours,
    @Nullable Double escalateAfterMinutes,
    @Nullable Double remindAfterHours,
    @Nullable Boolean tellReturned,
    @Nullable String summaryAt,
    @Nullable Integer collectSeconds,
    @Nullable Double giveUpAfterHours,
    @Nullable Double brokerAwayMinutes,
    @Nullable Integer diskFreeMegabytes) {

  static final List<String> LANGUAGES = List.of("en", "de");

  private static final Pattern TIME_SPAN =
      Pattern.compile("([0-2]?\\d:[0-5]\\d)\\s*-\\s*([0-2]?\\d:[0-5]\\d)");

  /** The section {@code notices.webhook} of a settings file, before the checks. */
  record WebhookSection(
      @Nullable String url,
      @Nullable String secret,
      @Nullable String secretEnv,
      @Nullable String secretFile) {

    NoticesConfig.Webhook checked(ConfigProblems problems, Map<String, String> environment) {
      return new NoticesConfig.Webhook(
          NoticeChecks.webAddress(
              problems,
              "notices.webhook.url",
              NoticeChecks.required(
                  problems, "notices.webhook.url", url, NoticeChecks.PLACEHOLDER_URL)),
          NoticeChecks.secret(
              problems, environment, "notices.webhook.secret", secret, secretEnv, secretFile));
    }
  }

  private static final int DEFAULT_COLLECT_SECONDS = 60;
  private static final int MAX_SPACING_SECONDS = 600;

  NoticesConfig checked(ConfigProblems problems, Map<String, String> environment, ZoneId zone) {
    NoticesConfig.Email checkedEmail = email == null ? null : email.checked(problems, environment);
    boolean escalates = checkedEmail != null && checkedEmail.escalateTo() != null;
    if (escalateAfterMinutes != null && !escalates) {
      problems.add("notices.escalateAfterMinutes has no effect without notices.email.escalateTo");
    }
    int checkedCollectSeconds =
        problems.whole(
            "notices.collectSeconds",
            collectSeconds == null ? DEFAULT_COLLECT_SECONDS : collectSeconds,
            0,
            3_600);
    NoticeSettings rules =
        new NoticeSettings(
            Duration.ofSeconds(checkedCollectSeconds),
            Duration.ofSeconds(Math.min(MAX_SPACING_SECONDS, 10L * checkedCollectSeconds)),
            escalates
                ? duration(problems, "escalateAfterMinutes", escalateAfterOrDefault(), 1, 10_080, 1)
                : null,
            remindAfterHours == null
                ? null
                : duration(problems, "remindAfterHours", remindAfterHours, 0.5, 720, 60),
            tellReturned == null || tellReturned,
            checkedQuietHours(problems),
            summaryAt == null ? null : checkedSummaryAt(problems, summaryAt),
            zone,
            duration(problems, "giveUpAfterHours", orDefault(giveUpAfterHours, 24), 0.1, 720, 60));
    SelfMonitor.Limits limits =
        new SelfMonitor.Limits(
            duration(problems, "brokerAwayMinutes", orDefault(brokerAwayMinutes, 10), 1, 10_080, 1),
            (long)
                    problems.whole(
                        "notices.diskFreeMegabytes",
                        diskFreeMegabytes == null ? 500 : diskFreeMegabytes,
                        1,
                        1 << 20)
                << 20);
    return new NoticesConfig(
        publicUrl == null ? null : withoutTrailingSlash(problems, publicUrl),
        units(problems),
        checkedEmail,
        webhook == null ? null : webhook.checked(problems, environment),
        heartbeat(problems),
        rules,
        limits);
  }

  private double escalateAfterOrDefault() {
    return orDefault(escalateAfterMinutes, 30);
  }

  private static double orDefault(@Nullable Double value, double defaultValue) {
    return value == null ? defaultValue : value;
  }

  private static Duration duration(
      ConfigProblems problems,
      String name,
      double value,
      double least,
      double most,
      int unitMinutes) {
    double checkedValue = problems.number("notices." + name, value, least, most);
    return Duration.ofMillis(Math.round(checkedValue * unitMinutes * 60_000));
  }

  private NoticesConfig.@Nullable Heartbeat heartbeat(ConfigProblems problems) {
    Duration every =
        duration(problems, "heartbeatMinutes", orDefault(heartbeatMinutes, 5), 0.1, 1_440, 1);
    if (heartbeatUrl == null) {
      if (heartbeatMinutes != null) {
        problems.add("notices.heartbeatMinutes has no effect without notices.heartbeatUrl");
      }
      return null;
    }
    return new NoticesConfig.Heartbeat(
        NoticeChecks.webAddress(problems, "notices.heartbeatUrl", heartbeatUrl), every);
  }

  private static String withoutTrailingSlash(ConfigProblems problems, String url) {
    return NoticeChecks.webAddress(problems, "notices.publicUrl", url)
        .toString()
        .replaceAll("/+$", "");
  }

  private Units units(ConfigProblems problems) {
    String unit = temperatureUnit == null ? "°C" : temperatureUnit;
    if (!List.of("°C", "C", "°F", "F").contains(unit)) {
      problems.add("notices.temperatureUnit must be °C or °F, not \"" + unit + '"');
    }
    String language = this.language == null ? "en" : this.language;
    if (!LANGUAGES.contains(language)) {
      problems.add("notices.language must be en or de, not \"" + language + '"');
    }
    return new Units(unit.endsWith("F"), Locale.forLanguageTag(language));
  }

  private static @Nullable LocalTime checkedSummaryAt(ConfigProblems problems, String value) {
    try {
      return time(value);
    } catch (DateTimeException e) {
      problems.add("notices.summaryAt must be a time like \"07:30\", not \"" + value + '"');
      return null;
    }
  }

  private Map<Priority, QuietHours> checkedQuietHours(ConfigProblems problems) {
    Map<Priority, QuietHours> quiet = new EnumMap<>(Priority.class);
    if (quietHours != null) {
      quietHours.forEach((priority, hours) -> addQuietHours(problems, quiet, priority, hours));
    }
    return quiet;
  }

  private static void addQuietHours(
      ConfigProblems problems,
      Map<Priority, QuietHours> quiet,
      String key,
      @Nullable String value) {
    String hours = value == null ? "" : value;
    Priority priority = priority(key);
    if (priority == null) {
      problems.add("notices.quietHours has the keys low, medium and high, not \"" + key + '"');
      return;
    }
    Matcher times = TIME_SPAN.matcher(hours);
    if (!times.matches()) {
      problems.add(
          "notices.quietHours." + key + " must be like \"22:00-07:00\", not \"" + hours + '"');
      return;
    }
    try {
      quiet.put(priority, new QuietHours(time(times.group(1)), time(times.group(2))));
    } catch (DateTimeException e) {
      problems.add(
          "notices.quietHours." + key + ": \"" + hours + "\" contains a time that does not exist");
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
