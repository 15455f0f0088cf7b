package tepidarium.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLGenerator;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.Notifier;
import tepidarium.app.SettingsSources.Place;
import tepidarium.backup.DurableFile;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.web.settings.ServiceSettings;

/**
 * Shows the settings on the page and changes them. Checks all settings together, as at a start,
 * then saves the changed ones in {@code settings.yaml} of the data folder. Settings for notices
 * have their effect at once; the others wait for the next start.
 */
final class SavedSettings implements ServiceSettings {
  static final String FILE_NAME = "settings.yaml";

  /**
   * Sections with a secret. If a setting of such a section is in the settings file, the page
   * changes none of it: otherwise a secret of the file could be sent to another server.
   */
  private static final List<String> SECTIONS = List.of("notices.email.", "notices.webhook.");

  private static final YAMLMapper YAML =
      YAMLMapper.builder().disable(YAMLGenerator.Feature.WRITE_DOC_START_MARKER).build();

  private final Path file;
  private final SettingsSources atStart;
  private final Consumer<NoticesConfig> noticesChanged;
  private final Function<Notifier, DeliveryOutcome> tester;
  private final Clock clock;
  private SettingsSources current; // guarded by this

  /**
   * Shows the settings that the service was started with.
   *
   * @param noticesChanged uses other settings for notices
   * @param tester sends a test notice and waits for its outcome
   */
  SavedSettings(
      Config config,
      Consumer<NoticesConfig> noticesChanged,
      Function<Notifier, DeliveryOutcome> tester,
      Clock clock) {
    this.file = config.data().resolve(FILE_NAME);
    this.atStart = config.sources();
    this.current = atStart;
    this.noticesChanged = noticesChanged;
    this.tester = tester;
    this.clock = clock;
  }

  @Override
  public String file() {
    return file.toString();
  }

  @Override
  public synchronized List<Setting> all() {
    ObjectNode before = atStart.merged();
    ObjectNode now = current.merged();
    return SettingList.ALL.stream().map(entry -> setting(entry, before, now)).toList();
  }

  private Setting setting(SettingList.Entry entry, ObjectNode before, ObjectNode now) {
    String name = entry.name();
    Place place = current.place(name);
    JsonNode value = SettingsSources.value(now, name);
    boolean changed = !Objects.equals(value, SettingsSources.value(before, name));
    return new Setting(
        name,
        entry.kind(),
        entry.choices(),
        place == Place.NOWHERE
            ? "default"
            : place.name().toLowerCase(Locale.ROOT).replace('_', '-'),
        placeName(place, name),
        value != null,
        entry.isSecret() ? null : value,
        entry.isSecret(),
        entry.isChangeable() && isOpen(name),
        !entry.isChangeable(),
        entry.takesEffectAtOnce(),
        changed && !entry.takesEffectAtOnce());
  }

  private @Nullable String placeName(Place place, String name) {
    return switch (place) {
      case PAGE -> file.toString();
      case FILE -> current.path() == null ? null : current.path().toString();
      case ENVIRONMENT -> ConfigReader.variable(SettingsSources.topName(name));
      case COMMAND_LINE, NOWHERE -> null;
    };
  }

  /** Whether no place above the page sets this setting, or another one of its section. */
  private boolean isOpen(String name) {
    return SettingList.ALL.stream()
        .map(SettingList.Entry::name)
        .filter(other -> other.equals(name) || sameSection(other, name))
        .map(current::place)
        .allMatch(place -> place == Place.NOWHERE || place == Place.PAGE);
  }

  private static boolean sameSection(String a, String b) {
    return SECTIONS.stream().anyMatch(section -> a.startsWith(section) && b.startsWith(section));
  }

  @Override
  public synchronized void change(Map<String, @Nullable JsonNode> changes) {
    SettingsSources changed = changed(changes);
    Config config = checked(changed);
    try {
      DurableFile.writePrivate(
          file, YAML.writeValueAsString(changed.page()).getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new IllegalStateException("cannot write " + file + ": " + e.getMessage(), e);
    }
    current = changed;
    if (changes.keySet().stream().anyMatch(SavedSettings::takesEffectAtOnce)) {
      noticesChanged.accept(config.notices());
    }
  }

  private static boolean takesEffectAtOnce(String name) {
    return entry(name).takesEffectAtOnce();
  }

  @Override
  public List<Trial> tryNotices(Map<String, @Nullable JsonNode> changes) {
    Config config;
    synchronized (this) {
      config = checked(changed(changes));
    }
    List<Trial> trials = new ArrayList<>();
    for (Notifier notifier : NoticeChannels.of(config.notices(), clock)) {
      String section = notifier.kind().equals("webhook") ? "notices.webhook." : "notices.email.";
      if (changes.keySet().stream().anyMatch(name -> name.startsWith(section))) {
        trials.add(new Trial(notifier, tester.apply(notifier)));
      }
    }
    return trials;
  }

  private static Config checked(SettingsSources sources) {
    try {
      return ConfigReader.checked(sources);
    } catch (ConfigException e) {
      if (e.problems().size() == 1) {
        String problem = e.problems().get(0);
        for (SettingList.Entry entry : SettingList.ALL) {
          if (problem.startsWith(entry.name() + ' ')) {
            String words = problem.substring(entry.name().length() + 1);
            throw new InvalidInput(entry.name(), words, e.broken());
          }
        }
      }
      throw new InvalidInput(String.join("; ", e.problems()), e);
    }
  }

  /** Returns the settings with changes of the page. */
  private SettingsSources changed(Map<String, @Nullable JsonNode> changes) {
    if (changes.isEmpty()) {
      throw new InvalidInput("there is no setting to change");
    }
    ObjectNode page = current.page().deepCopy();
    for (Map.Entry<String, @Nullable JsonNode> change : changes.entrySet()) {
      SettingList.Entry entry = entry(change.getKey());
      if (!entry.isChangeable()) {
        throw new InvalidInput(
            entry.name(), "is changed in the settings file only", InputRule.SET_ELSEWHERE.with());
      }
      if (!isOpen(entry.name())) {
        throw new InvalidInput(
            entry.name(),
            "is set in the settings file or at the start; change it there",
            InputRule.SET_ELSEWHERE.with());
      }
      JsonNode value = change.getValue();
      if (value != null && value.isContainerNode()) {
        throw new InvalidInput(entry.name(), "must be one value");
      }
      put(page, entry.name(), value);
    }
    dropSecretsOfOtherServers(page, changes);
    return current.withPage(page);
  }

  /**
   * Takes a stored secret away if its server or user changes and no new secret is given. Otherwise
   * a changed address would get the secret of the old one.
   */
  private void dropSecretsOfOtherServers(ObjectNode page, Map<String, @Nullable JsonNode> changes) {
    boolean otherServer =
        List.of("host", "port", "tls", "user").stream()
            .anyMatch(part -> differs(page, "notices.email." + part));
    if (otherServer && !changes.containsKey("notices.email.password")) {
      put(page, "notices.email.password", null);
    }
    if (differs(page, "notices.webhook.url") && !changes.containsKey("notices.webhook.secret")) {
      put(page, "notices.webhook.secret", null);
    }
  }

  private boolean differs(ObjectNode page, String name) {
    return !Objects.equals(
        SettingsSources.value(page, name), SettingsSources.value(current.page(), name));
  }

  private static SettingList.Entry entry(String name) {
    return SettingList.ALL.stream()
        .filter(entry -> entry.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new InvalidInput(name, "is not the name of a setting"));
  }

  /** Sets a value, or removes it with the sections that are empty then. */
  private static void put(ObjectNode settings, String name, @Nullable JsonNode value) {
    int dot = name.indexOf('.');
    if (dot < 0) {
      if (value == null || value.isNull()) {
        settings.remove(name);
      } else {
        settings.set(name, value);
      }
      return;
    }
    String section = name.substring(0, dot);
    ObjectNode part = settings.withObjectProperty(section);
    put(part, name.substring(dot + 1), value);
    if (part.isEmpty()) {
      settings.remove(section);
    }
  }
}
