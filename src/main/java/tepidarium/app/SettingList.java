package tepidarium.app;

import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tepidarium.web.settings.ServiceSettings.Kind;

/**
 * Lists every setting that can be written, with its kind. The list follows from the records that a
 * settings file is read into.
 */
final class SettingList {
  private static final String NOTICES = "notices.";
  private static final String QUIET_HOURS = "quietHours";

  /** The words that a setting accepts, where only a few are valid. */
  private static final Map<String, List<String>> CHOICES =
      Map.of(
          "login", List.of("auto", "always", "never"),
          "anonymousSensors", List.of("auto", "never", "loopback", "everywhere"),
          "logFormat", List.of("text", "json"),
          "standby", List.of("true", "false"),
          "backups.every", List.of("hour", "day", "week", "never"),
          "notices.language", NoticesSection.LANGUAGES,
          "notices.temperatureUnit", List.of("°C", "°F"),
          "notices.tellReturned", List.of("true", "false"),
          "notices.email.tls", List.of("starttls", "implicit", "none"));

  /**
   * Settings that the page may change. None of them can lock people out, open the service to more
   * machines, or make it read or write another file.
   */
  private static final Set<String> CHANGEABLE =
      Set.of(
          "maxSensors",
          "newSensorsPerHour",
          "sessionHours",
          "sessionMegabytes",
          "clientMessagesPerSecond",
          "clientKilobytesPerSecond",
          "maxPayloadBytes",
          "maxGapMinutes",
          "silentAfterMinutes",
          "silentGraceSeconds",
          "timeZone",
          "spoolMaxMegabytes",
          "keepRawDays",
          "site.name",
          "site.latitude",
          "site.longitude",
          "backups.every",
          "backups.keep",
          "logFormat");

  /** Settings of notices that name a file or a variable of the machine. */
  private static final Set<String> OF_THE_MACHINE =
      Set.of(
          "notices.email.passwordEnv",
          "notices.email.passwordFile",
          "notices.email.certificateFile",
          "notices.webhook.secretEnv",
          "notices.webhook.secretFile");

  /** Settings of notices that are read at the start only. */
  private static final Set<String> NOTICES_AT_START =
      Set.of(
          "notices.publicUrl",
          "notices.heartbeatUrl",
          "notices.heartbeatMinutes",
          "notices.brokerAwayMinutes",
          "notices.diskFreeMegabytes");

  /**
   * One setting.
   *
   * @param name its name, with dots between section and setting
   */
  record Entry(String name, Kind kind) {
    List<String> choices() {
      return CHOICES.getOrDefault(name, List.of());
    }

    boolean isChangeable() {
      return CHANGEABLE.contains(name)
          || (name.startsWith(NOTICES) && !OF_THE_MACHINE.contains(name));
    }

    boolean isSecret() {
      return SettingsCopy.SECRETS.contains(name) || SettingsCopy.SECRETS.contains(name + ".*");
    }

    /** Whether a change has its effect at once, and not only after the next start. */
    boolean takesEffectAtOnce() {
      return name.startsWith(NOTICES) && !NOTICES_AT_START.contains(name);
    }
  }

  static final List<Entry> ALL = list();

  private SettingList() {}

  private static List<Entry> list() {
    List<Entry> entries = new ArrayList<>();
    add(entries, "", ConfigFile.class);
    return List.copyOf(entries);
  }

  private static void add(List<Entry> entries, String prefix, Class<?> section) {
    for (RecordComponent part : section.getRecordComponents()) {
      String name = prefix + part.getName();
      if (part.getType().isRecord()) {
        add(entries, name + '.', part.getType());
      } else if (part.getName().equals(QUIET_HOURS)) {
        List.of("low", "medium", "high")
            .forEach(priority -> entries.add(new Entry(name + '.' + priority, Kind.TEXT)));
      } else {
        entries.add(new Entry(name, kind(name, part.getType())));
      }
    }
  }

  private static Kind kind(String name, Class<?> type) {
    if (CHOICES.containsKey(name)) {
      return Kind.CHOICE;
    }
    if (type == Integer.class) {
      return Kind.WHOLE;
    }
    if (type == Double.class) {
      return Kind.NUMBER;
    }
    return type == String.class ? Kind.TEXT : Kind.LIST;
  }
}
