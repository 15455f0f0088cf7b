package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.BooleanNode;
import com.fasterxml.jackson.databind.node.DoubleNode;
import com.fasterxml.jackson.databind.node.IntNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.reading.InvalidInput;
import tepidarium.web.settings.ServiceSettings.Setting;

/** The settings on the page: where each is set, which can be changed, and what a change does. */
class SavedSettingsTest {
  private static final Map<String, JsonNode> EMAIL =
      Map.of(
          "notices.email.host", text("mail.example.org"),
          "notices.email.user", text("shelf"),
          "notices.email.password", text("a secret word"),
          "notices.email.from", text("shelf@example.org"),
          "notices.email.to", text("ida@example.org"));

  @TempDir private Path folder;
  private final List<NoticesConfig> used = new ArrayList<>();

  @Test
  void aChangeIsSavedAndReadAtTheNextStart() throws IOException {
    SavedSettings settings = settings(Map.of(), Map.of());
    settings.change(
        Map.of(
            "maxGapMinutes",
            IntNode.valueOf(20),
            "site.latitude",
            number(52.5),
            "site.longitude",
            number(13.4)));

    Setting gap = setting(settings, "maxGapMinutes");
    assertEquals("page", gap.place());
    assertEquals(20, gap.value().intValue());
    assertTrue(gap.waiting(), "it counts after the next start");
    assertTrue(used.isEmpty(), "no notice setting was changed");

    Config next = config(Map.of(), Map.of());
    assertEquals(20, next.maxGapMinutes());
    assertEquals(52.5, next.site().latitudeDegrees());
    assertFalse(setting(new SavedSettings(next, used::add, null, null), "maxGapMinutes").waiting());
    assertEquals(
        "rw-------",
        PosixFilePermissions.toString(
            Files.getPosixFilePermissions(folder.resolve(SavedSettings.FILE_NAME))));
  }

  @Test
  void nullGivesTheDefaultBack() {
    SavedSettings settings = settings(Map.of(), Map.of());
    settings.change(Map.of("site.latitude", number(52.5), "site.longitude", number(13.4)));
    Map<String, @Nullable JsonNode> away = new HashMap<>();
    away.put("site.latitude", null);
    away.put("site.longitude", JsonNodeFactory.instance.nullNode());
    settings.change(away);
    assertEquals("default", setting(settings, "site.latitude").place());
    assertNull(config(Map.of(), Map.of()).site());
  }

  @Test
  void aWrongValueChangesNothing() {
    SavedSettings settings = settings(Map.of(), Map.of());
    InvalidInput refused =
        assertThrows(
            InvalidInput.class, () -> settings.change(Map.of("maxGapMinutes", number(0.1))));
    assertEquals("maxGapMinutes", refused.field());
    assertEquals("maxGapMinutes must be from 1.0 to 1440.0, not 0.1", refused.getMessage());
    assertThrows(InvalidInput.class, () -> settings.change(Map.of("site.latitude", number(52.5))));
    assertThrows(InvalidInput.class, () -> settings.change(Map.of("maxGapMinutes", text("long"))));
    assertThrows(InvalidInput.class, () -> settings.change(Map.of("noSuch", text("x"))));
    assertThrows(InvalidInput.class, () -> settings.change(Map.of()));
    assertThrows(
        InvalidInput.class,
        () -> settings.change(Map.of("logFormat", JsonNodeFactory.instance.objectNode())));
    assertFalse(Files.exists(folder.resolve(SavedSettings.FILE_NAME)));
    assertEquals("default", setting(settings, "maxGapMinutes").place());
  }

  @Test
  void placesAboveThePageWinAndAreNamed() {
    settings(Map.of(), Map.of()).change(Map.of("maxGapMinutes", number(20)));
    Config config =
        config(
            Map.of("maxGapMinutes", 40, "logFormat", "json"),
            Map.of("TEPIDARIUM_MAX_SENSORS", "5"));
    assertEquals(40, config.maxGapMinutes());
    SavedSettings settings = new SavedSettings(config, used::add, null, null);
    assertEquals("file", setting(settings, "maxGapMinutes").place());
    Setting sensors = setting(settings, "maxSensors");
    assertEquals("environment", sensors.place());
    assertEquals("TEPIDARIUM_MAX_SENSORS", sensors.placeName());
    assertFalse(sensors.changeable());
    assertThrows(InvalidInput.class, () -> settings.change(Map.of("logFormat", text("text"))));
  }

  /** None of these may be changed by somebody who only got hold of a page. */
  @Test
  void settingsThatOpenTheMachineAreChangedInTheFileOnly() {
    SavedSettings settings = settings(Map.of(), Map.of());
    for (String name :
        List.of(
            "data",
            "httpHost",
            "login",
            "proxies",
            "tls.key",
            "mqttHost",
            "anonymousSensors",
            "accounts",
            "backups.folder",
            "notices.email.passwordFile",
            "notices.email.certificateFile")) {
      assertTrue(setting(settings, name).fileOnly(), name);
      assertThrows(InvalidInput.class, () -> settings.change(Map.of(name, text("never"))), name);
    }
  }

  @Test
  void secretsAreNeverShown() {
    SavedSettings settings = settings(Map.of("accounts", Map.of("jar-1", "deep secret")), Map.of());
    settings.change(EMAIL);
    assertTrue(setting(settings, "notices.email.password").set());
    assertTrue(setting(settings, "accounts").set());
    String all = settings.all().toString();
    assertFalse(all.contains("secret word") || all.contains("deep secret"), all);
    assertEquals("mail.example.org", setting(settings, "notices.email.host").value().textValue());
  }

  @Test
  void noticesChangeAtOnce() {
    SavedSettings settings = settings(Map.of(), Map.of());
    settings.change(EMAIL);
    assertEquals(1, used.size());
    NoticesConfig.Email email = used.get(0).email();
    assertNotNull(email);
    assertEquals(List.of("ida@example.org"), email.to());
    assertFalse(setting(settings, "notices.email.host").waiting());
    settings.change(Map.of("notices.publicUrl", text("http://garden.example.org:8080")));
    assertEquals(1, used.size());
    assertTrue(setting(settings, "notices.publicUrl").waiting());
    settings.change(Map.of("notices.tellReturned", BooleanNode.FALSE));
    assertFalse(used.get(1).rules().announceReturns());
  }

  /** Otherwise whoever may change the server could read the password there. */
  @Test
  void anotherServerDoesNotGetTheStoredPassword() {
    SavedSettings settings = settings(Map.of(), Map.of());
    settings.change(EMAIL);
    InvalidInput refused =
        assertThrows(
            InvalidInput.class,
            () -> settings.change(Map.of("notices.email.host", text("other.example.org"))));
    assertTrue(refused.getMessage().contains("password"), refused.getMessage());
    settings.change(Map.of("notices.email.to", text("ben@example.org")));
    assertEquals("a secret word", used.get(1).email().server().password());
    settings.change(
        Map.of(
            "notices.email.host", text("other.example.org"),
            "notices.email.password", text("new")));
    assertEquals("new", used.get(2).email().server().password());
  }

  @Test
  void aSecretOfTheFileStaysWithItsServer() throws IOException {
    Path secret = Files.writeString(folder.resolve("mail"), "of the file");
    SavedSettings settings =
        settings(
            Map.of(
                "notices",
                Map.of(
                    "email",
                    Map.of(
                        "user",
                        "shelf",
                        "passwordFile",
                        secret.toString(),
                        "host",
                        "mail.example.org",
                        "from",
                        "a@example.org",
                        "to",
                        "b@example.org"))),
            Map.of());
    assertFalse(setting(settings, "notices.email.port").changeable());
    assertThrows(
        InvalidInput.class,
        () -> settings.change(Map.of("notices.email.port", IntNode.valueOf(2525))));
    settings.change(Map.of("notices.summaryAt", text("07:30")));
    assertEquals(List.of("b@example.org"), used.get(0).email().to());
  }

  @Test
  void everyChoiceIsAcceptedAndNoOtherWord() {
    for (SettingList.Entry entry : SettingList.ALL) {
      for (String choice : entry.choices()) {
        ConfigReader.read(nested(entry.name(), choice));
      }
      if (!entry.choices().isEmpty()) {
        assertThrows(
            ConfigException.class,
            () -> ConfigReader.read(nested(entry.name(), "nonsense")),
            entry.name());
      }
    }
  }

  private Map<String, Object> nested(String name, String value) {
    Map<String, Object> settings = new HashMap<>(Map.of("data", folder.toString()));
    if (name.startsWith("notices.email.")) {
      settings.put(
          "notices",
          Map.of(
              "email",
              Map.of("host", "h", "from", "a@example.org", "to", "b@example.org", "tls", value)));
    } else if (name.contains(".")) {
      String[] parts = name.split("\\.", 2);
      settings.put(parts[0], Map.of(parts[1], value));
    } else {
      settings.put(name, value);
    }
    if (name.equals("standby")) {
      settings.put("recordsUrl", "postgresql://db/tepidarium");
      settings.put("influxUrl", "http://db:8086");
      settings.put("broker", "tcp://db:1883");
    }
    return settings;
  }

  @Test
  void aSavedFileThatNoLongerFitsIsNamedAtTheStart() throws IOException {
    Files.writeString(folder.resolve(SavedSettings.FILE_NAME), "maxGapMinutes: 0\n");
    ConfigException refused = assertThrows(ConfigException.class, () -> config(Map.of(), Map.of()));
    assertTrue(refused.getMessage().contains("settings.yaml"), refused.getMessage());
  }

  private SavedSettings settings(Map<String, ?> file, Map<String, String> environment) {
    return new SavedSettings(config(file, environment), used::add, null, null);
  }

  private Config config(Map<String, ?> file, Map<String, String> environment) {
    Map<String, Object> all = new HashMap<>(file);
    all.put("data", folder.toString());
    try {
      Path path = folder.resolve("tepidarium.yaml");
      new com.fasterxml.jackson.dataformat.yaml.YAMLMapper().writeValue(path.toFile(), all);
      return ConfigReader.read(path, environment, Map.of());
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  private static Setting setting(SavedSettings settings, String name) {
    return settings.all().stream()
        .filter(setting -> setting.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static JsonNode text(String value) {
    return TextNode.valueOf(value);
  }

  private static JsonNode number(double value) {
    return DoubleNode.valueOf(value);
  }
}
