package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.alert.Priority;
import tepidarium.alert.notify.channel.MailServer;

class NoticesConfigTest {
  private static final Map<String, String> SECRETS = Map.of("MAIL", "hush", "HOOK", "whisper");

  @TempDir private Path folder;

  private Config read(String text) throws IOException {
    Path file = Files.writeString(folder.resolve("tepidarium.yaml"), text);
    return ConfigReader.read(file, SECRETS, Map.of());
  }

  @Test
  void theExampleOfTheDocumentIsRead() throws IOException {
    String handbook = Files.readString(Path.of("src/docs/notices.md"));
    String example = handbook.split("```yaml\n", 2)[1].split("```", 2)[0];
    NoticesConfig notices = read(example.replace("MAIL_PASSWORD", "MAIL")).notices();
    assertNotNull(notices);
    assertNotNull(notices.email());
    assertEquals("hush", notices.email().server().password());
    assertEquals(MailServer.Tls.STARTTLS, notices.email().server().tls());
    assertEquals(Duration.ofMinutes(30), notices.rules().escalateAfter());
    assertTrue(notices.rules().quietHours().containsKey(Priority.LOW));
    assertFalse(notices.toString().contains("hush"), notices.toString());
  }

  @Test
  void withoutTheSectionEverySettingHasItsDefault() throws IOException {
    NoticesConfig notices = read("# nothing\n").notices();
    assertEquals(read("notices: {temperatureUnit: C}\n").notices(), notices);
    assertNull(notices.email());
    assertNull(notices.webhook());
    assertNull(notices.heartbeat());
    assertEquals(notices, read("notices:\n").notices());
  }

  @ParameterizedTest
  @ValueSource(strings = {"{webhook: {secret: a}}", "{email: {host: h, from: a@b}}"})
  void aMissingSettingIsReportedOnce(String section) {
    ConfigException e = assertThrows(ConfigException.class, () -> read("notices: " + section));
    assertEquals(1, e.getMessage().lines().filter(line -> line.contains("notices.")).count());
  }

  @Test
  void aSecretComesFromTheEnvironmentOrAFile() throws IOException {
    Path secret = Files.writeString(folder.resolve("secret"), "from the file\n");
    String text = "notices: {webhook: {url: 'http://h/', %s}}";
    NoticesConfig file = read(text.formatted("secretFile: '" + secret + '\'')).notices();
    NoticesConfig variable = read(text.formatted("secretEnv: HOOK")).notices();
    assertEquals("from the file", file.webhook().secret());
    assertEquals("whisper", variable.webhook().secret());
    assertFalse(variable.toString().contains("whisper"));
  }

  @Test
  void allErrorsAreReportedTogether() throws IOException {
    ConfigException e =
        assertThrows(
            ConfigException.class,
            () ->
                read(
                    """
                    notices:
                      publicUrl: shelf
                      temperatureUnit: K
                      language: fr
                      escalateAfterMinutes: 5
                      quietHours: {low: late, urgent: "22:00-07:00", medium: "22:00-22:00"}
                      collectSeconds: -1
                      summaryAt: "25:00"
                      email: {port: 0, tls: maybe, user: ida, from: nobody, to: ""}
                    """));
    String said = String.valueOf(e.getMessage());
    for (String part :
        new String[] {
          "publicUrl must be",
          "temperatureUnit must be",
          "language must be en or de",
          "escalateAfterMinutes has no effect without",
          "quietHours.low must be",
          "quietHours has the keys low, medium and high",
          "quiet hours must end at another time",
          "collectSeconds must be from 0",
          "summaryAt must be a time like",
          "email.host is needed",
          "email.port must be from 1",
          "email.tls must be",
          "email.user needs a password",
          "email.from must be",
          "email.to is needed"
        }) {
      assertTrue(said.contains(part), () -> part + " in: " + said);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{webhook: {url: 'http://h/', secretEnv: NOT_THERE}}",
        "{webhook: {url: 'http://h/', secretFile: /not/there}}",
        "{webhook: {url: 'http://h/', secret: a, secretEnv: HOOK}}",
        "{webhook: {url: 'http://user:secret@h/'}}",
        "{heartbeatMinutes: 5}",
        "{heartbeatUrl: 'ftp://h/'}",
        "{email: {hst: h}}"
      })
  void aMistakeIsRefused(String section) {
    assertThrows(ConfigException.class, () -> read("notices: " + section));
  }
}
