package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.light.Site;
import tepidarium.sites.OtherSite;

class ConfigReaderTest {
  @TempDir private Path folder;

  private Path file(String text) throws IOException {
    return Files.writeString(folder.resolve("tepidarium.yaml"), text);
  }

  private String problem(String text) throws IOException {
    Path file = file(text);
    ConfigException e =
        assertThrows(ConfigException.class, () -> ConfigReader.read(file, Map.of(), Map.of()));
    return String.valueOf(e.getMessage());
  }

  @Test
  void anEmptyFileGivesTheDefaults() throws IOException {
    Config config = ConfigReader.read(file("# nothing yet\n"), Map.of(), Map.of());
    assertTrue(config.embedded());
    assertEquals(8080, config.httpPort());
    assertEquals("127.0.0.1", config.httpHost());
    assertEquals("tepidarium", config.rootTopic());
    assertEquals(ZoneId.systemDefault(), config.timeZone());
  }

  @Test
  void theCommandLineWinsOverTheEnvironmentAndThatOverTheFile() throws IOException {
    Path file = file("httpPort: 1\nmqttPort: 2\nmaxGapMinutes: 20\n");
    Map<String, String> environment =
        Map.of("TEPIDARIUM_HTTP_PORT", "11", "TEPIDARIUM_MQTT_PORT", "12");
    Config config = ConfigReader.read(file, environment, Map.of("httpPort", "111"));
    assertEquals(111, config.httpPort());
    assertEquals(12, config.mqttPort());
    assertEquals(20, config.maxGapMinutes());
  }

  @ParameterizedTest
  @CsvSource({
    "auto, 127.0.0.1, false",
    "auto, 127.9.9.9, false",
    "auto, localhost, false",
    "auto, ::1, false",
    "auto, 0.0.0.0, true",
    "auto, 192.168.1.5, true",
    "auto, ::, true",
    "auto, 127.0.0.1.example.org, true",
    "always, 127.0.0.1, true",
    "never, 0.0.0.0, false"
  })
  void theLoginFollowsTheAddress(String login, String host, boolean asks) {
    Config config = Config.of(Map.of("login", login, "httpHost", host));
    assertEquals(asks, config.asksForLogin());
    assertEquals(login.equals("never"), config.isExposed());
  }

  @Test
  void mappingRulesAndAccountsAreRead() throws IOException {
    Config config =
        ConfigReader.read(
            file(
                """
                accounts: {jar-1: secret}
                mappings:
                  - topic: garden/{sensor}/state
                    temperature: {pointer: /temp, unit: °F}
                """),
            Map.of(),
            Map.of());
    assertEquals(Map.of("jar-1", "secret"), config.accounts());
    assertEquals("garden/{sensor}/state", config.mappings().get(0).topic());
    assertFalse(config.toString().contains("secret"));
  }

  @Test
  void grantsBelongToAccountsAndHoldTopics() throws IOException {
    String accounts = "accounts: {lamp: x}\n";
    Path file = file(accounts + "grants: {lamp: {read: [tepidarium/alert/#, +/a]}}\n");
    Config.Grant lamp =
        ConfigReader.read(file, Map.of(), Map.of()).mqttLimits().grants().get("lamp");
    assertEquals(List.of("tepidarium/alert/#", "+/a"), lamp.read());
    assertEquals(List.of(), lamp.publish());
    assertTrue(problem("grants: {x: {}}\n").contains("grants x: there is no account"));
    assertTrue(problem(accounts + "grants: {lamp: null}\n").contains("grants lamp needs"));
    for (String wrong : List.of("'a#'", "a/#/b", "$SYS/#", "''")) {
      String lines = accounts + "grants: {lamp: {publish: [" + wrong + "]}}\n";
      assertTrue(problem(lines).contains("grants lamp must hold topics"), wrong);
    }
    String empty = problem(accounts + "grants: {lamp: {read: [null]}}\n");
    assertTrue(empty.contains("grants lamp read entry 1: is empty"), empty);
  }

  @Test
  void theNamesOfThePagesAreThoseSetAndThePublicAddress() throws IOException {
    Path file = file("httpNames: [Shelf.lan]\nnotices: {publicUrl: 'https://a.example:8443/x'}\n");
    Config config = ConfigReader.read(file, Map.of(), Map.of());
    assertEquals(Set.of("shelf.lan", "a.example:8443"), config.httpNames());
    assertTrue(problem("httpNames: ['http://a.example/']\n").contains("httpNames must list"));
    assertTrue(problem("httpNames: [null]\n").contains("httpNames"), "null is no name");
  }

  @Test
  void theSiteIsReadAndMayBeLeftOut() throws IOException {
    Path file = file("site: {latitude: 52.52, longitude: -13.4}\n");
    Config config = ConfigReader.read(file, Map.of(), Map.of());
    assertEquals(new Site(52.52, -13.4), config.site());
    assertNull(ConfigReader.read(file("httpPort: 1\n"), Map.of(), Map.of()).site());
  }

  @Test
  void theNetworkOfSitesIsRead() throws IOException {
    String sites = "site: {name: North 1}\nsites: {South: ['https://south.example.org/']}\n";
    Config.Network network =
        ConfigReader.read(file(sites + "siteTokens: {South: t0ken}\n"), Map.of(), Map.of())
            .network();
    assertEquals("North 1", network.name());
    assertEquals(
        List.of(new OtherSite("South", List.of(URI.create("https://south.example.org")), "t0ken")),
        network.others());
    assertTrue(
        problem(sites + "siteTokens: {East: x}\n").contains("siteTokens East: there is no site"));
    assertTrue(problem("sites: {South: []}\n").contains("sites.South needs the addresses"));
    for (String wrong :
        List.of("ftp://x", "https://a#x", "https://a?x", "https://a:99999", "https://a b", "")) {
      String said = problem("sites: {South: ['" + wrong + "']}\n");
      assertTrue(said.contains("sites.South must list addresses"), said);
    }
    assertTrue(problem("site: {name: '<b>'}\n").contains("site.name must have 1 to 40 letters"));
  }

  @Test
  void anAccessTokenIsVisibleAscii() throws IOException {
    String sites = "sites: {South: ['https://south.example.org']}\nsiteTokens: {South: \"%s\"}\n";
    for (String token : List.of("t0ken", "t0ken\\n", "t0ken\\r\\n")) {
      Config config = ConfigReader.read(file(sites.formatted(token)), Map.of(), Map.of());
      assertEquals("t0ken", config.network().others().get(0).token());
    }
    for (String token : List.of("t0ken\\n\\n", "t0\\nken", "t0 ken", "t0ken\u2013", "t0k\u00e9n")) {
      String said = problem(sites.formatted(token));
      assertTrue(said.contains("siteTokens South must be an access token in one piece"), said);
      assertFalse(said.contains("t0"), said);
    }
  }

  @Test
  void listsAndMapsAreWrittenInTheEnvironmentAsInTheFile() throws IOException {
    Path file = file("site: {latitude: 1, longitude: 2}\n");
    Config config =
        ConfigReader.read(
            file,
            Map.of(
                "TEPIDARIUM_SITE", "{latitude: 52.52, longitude: -13.4}",
                "TEPIDARIUM_ACCOUNTS", "{jar-1: secret}",
                "TEPIDARIUM_NOTICES", "{temperatureUnit: °F}"),
            Map.of());
    assertEquals(new Site(52.52, -13.4), config.site());
    assertEquals(Map.of("jar-1", "secret"), config.accounts());
    assertTrue(config.notices().units().fahrenheit());
  }

  @ParameterizedTest
  @CsvSource({
    "'{latitude: 52.5', TEPIDARIUM_SITE in line 1: ",
    "'{latitude: 52.5}', site needs both latitude and longitude",
    "'{latitude: 91, longitude: 0}', site latitude must lie from -90 to 90",
    "'{lat: 52.5, lon: 13}', site lat: there is no setting \"lat\" here",
    "'{latitude: north, longitude: 13}', site latitude: \"north\" is not a number",
    "'52.5, 13.4', site: has a value of the wrong kind"
  })
  void aMistakenSiteInTheEnvironmentIsNamedToo(String value, String said) {
    ConfigException e =
        assertThrows(
            ConfigException.class,
            () -> ConfigReader.read(null, Map.of("TEPIDARIUM_SITE", value), Map.of()));
    assertTrue(String.valueOf(e.getMessage()).contains(said), e::getMessage);
  }

  @Test
  void anEmptyVariableCountsAsNotSet() {
    assertNull(ConfigReader.read(null, Map.of("TEPIDARIUM_SITE", " "), Map.of()).site());
  }

  @ParameterizedTest
  @CsvSource({
    "htpPort: 8080, did you mean \"httpPort\"?",
    "brokr: embedded, did you mean \"broker\"?",
    "colour: red, the settings are data",
    "httpPort: abc, httpPort: \"abc\" is not a whole number",
    "httpPort: 99999, httpPort must be from 0 to 65535",
    "httpPort: 1883, httpPort and mqttPort must differ",
    "broker: mqtt.example, broker must be \"embedded\" or an address",
    "timeZone: Mars, timeZone must be a time zone",
    "rootTopic: a/+/b, rootTopic must be a topic",
    "maxGapMinutes: 0, maxGapMinutes must be from 1",
    "just words, must hold lines like",
    "'site: {latitude: 91, longitude: 0}', site latitude must lie from -90 to 90",
    "'site: {latitude: 9, longitude: 200}', site longitude must lie",
    "'site: {latitude: 52.5}', site needs both latitude and longitude",
    "'site: {lat: 52.5, lon: 13}', there is no setting",
    "'backups: {every: year}', 'backups.every must be hour, day, week or never, not \"year\"'",
    "'backups: {keep: 0}', backups.keep must be from 1 to 1000",
    "'backups: {folder: \"\"}', backups.folder is empty",
    "'backups: {hourly: 1}', there is no setting",
    "'site: Berlin', site: has a value of the wrong kind",
    "'httpPort: [1', in line"
  })
  void aMistakeIsNamedWithItsRemedy(String text, String said) throws IOException {
    assertTrue(problem(text).contains(said), () -> "said: " + said);
  }

  @Test
  void anExternalBrokerLeavesThePortToThePages() throws IOException {
    Path file = file("broker: tcp://192.168.1.5:1883\nhttpPort: 1883\n");
    assertEquals(1883, ConfigReader.read(file, Map.of(), Map.of()).httpPort());
  }

  @Test
  void settingsFromCodeHaveTheSameNamesAndChecks() {
    assertEquals(1, Config.of(Map.of("httpPort", 1)).httpPort());
    String message =
        String.valueOf(
            assertThrows(ConfigException.class, () -> Config.of(Map.of("brokr", "embedded")))
                .getMessage());
    assertTrue(message.contains("there is no setting \"brokr\"; did you mean"), message);
    assertFalse(message.contains("null"), message);
  }

  @Test
  void allProblemsAreReportedTogether() throws IOException {
    String problems = problem("httpPort: 99999\ntimeZone: Mars\n");
    assertTrue(problems.contains("httpPort") && problems.contains("timeZone"), problems);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "accounts: {a: null} | accounts a needs a password",
        "accounts: {a: ''} | accounts a needs a password",
        "accounts: {'': x} | accounts has an empty name",
        "accounts: [a] | accounts",
        "accounts: {a: [1]} | accounts a",
        "accounts: {a: x, a: y} | Duplicate",
        "accounts: {a: &p secret, b: *p} | \"*p\" refers to another place",
        "mappings: [null] | mappings entry 1: is empty",
        "mappings: {topic: x} | mappings",
        "mappings: [7] | mappings entry 1",
        "mqttHost: 'not a host !' | mqttHost must be an address or a host name",
        "httpHost: 'http://x' | httpHost must be an address",
        "httpHost: '' | httpHost must be an address",
        "login: sometimes | login must be auto, always or never, not \"sometimes\"",
        "logFormat: xml | logFormat must be text or json, not \"xml\"",
        "tls: {certificate: a.pem} | tls needs both certificate and key",
        "tls: {certificate: none.pem, key: none.pem} | tls: cannot read none.pem",
        "mqttTlsPort: 8883 | mqttTlsPort has no effect without tls",
        "mqttTlsPort: 1883 | mqttTlsPort must differ from mqttPort and httpPort",
        "anonymousSensors: some | anonymousSensors must be auto, never, loopback or everywhere",
        "clientMessagesPerSecond: 0 | clientMessagesPerSecond must be from 1 to 1000000",
        "brokerTls: {ca: none.pem} | brokerTls needs a broker with ssl://",
        "brokerTls: {ca: none.pem} | brokerTls: cannot read none.pem",
        "brokerTls: {certificate: a.pem} | brokerTls needs both certificate and key, or neither",
        "proxies: [garden] | proxies must list addresses of reverse proxies",
        "brokerUser: ida\\nbrokerPassword: '' | brokerPassword is empty",
        "brokerPassword: x | brokerPassword has no effect without brokerUser",
        "influxUrl: 'http://x'\\ninfluxUser: a\\ninfluxPassword: '' | influxPassword is empty",
        "notices: {quietHours: {low: null}} | notices.quietHours.low",
        "notices: {webhook: {url: 'http://x', secret: ''}} | notices.webhook.secret is empty",
        "notices: [] | notices",
        "site: 5 | site",
        "httpPort: 80.5 | httpPort",
        "httpPort: [1] | httpPort",
        "httpPort: 99999999999999999999 | httpPort",
        "- httpPort | must hold lines like",
        "httpPort: 1\\n---\\nhttpPort: 2 | more than one YAML document",
        "httpPort: [1 | in line",
        "data: \\0 | tepidarium.yaml",
      })
  void anUnusableSettingIsReportedInPlainWords(String text, String word) throws IOException {
    String told = problem(text.replace("\\n", "\n").replace("\\0", "\0"));
    assertTrue(told.contains(word), told);
  }

  @Test
  void deepAndLongAndHugeFilesAreRefused() throws IOException {
    assertTrue(problem("accounts: " + "[".repeat(100_000)).contains("tepidarium.yaml"));
    assertTrue(problem("httpPort: " + "9".repeat(100_000)).contains("httpPort"));
    assertTrue(problem("# " + "x".repeat(10_000_000)).contains("larger than 1048576 bytes"));
  }

  @Test
  void anUnreadableFileIsReportedInPlainWords() throws IOException {
    Path latin = Files.write(folder.resolve("latin.yaml"), new byte[] {'a', ':', (byte) 0xe4});
    assertTrue(refusal(latin).contains("not UTF-8"));
    assertTrue(refusal(folder).contains("is a folder"));
    assertTrue(refusal(folder.resolve("none.yaml")).contains("there is no file"));
  }

  private static String refusal(Path file) {
    return String.valueOf(
        assertThrows(ConfigException.class, () -> ConfigReader.read(file, Map.of(), Map.of()))
            .getMessage());
  }

  @Test
  void theSettingsOfAnInstalledServiceCanBeUsed() {
    Config config = ConfigReader.read(Path.of("src/package/tepidarium.yaml"), Map.of(), Map.of());
    assertEquals(Path.of("/var/lib/tepidarium"), config.data());
  }
}
