package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.stream.StreamSupport;

/** Settings are listed, changed, refused and tried. */
final class SettingChecks {
  private static final String PATH = "/api/settings";

  private final CheckedApi api;

  SettingChecks(CheckedApi api) {
    this.api = api;
  }

  void all() {
    assertEquals("default", setting("keepRawDays").path("place").asText());
    assertEquals("for ever", setting("keepRawDays").path("default").asText());
    change("{\"settings\":{\"keepRawDays\":400}}", 200);
    assertEquals("page", setting("keepRawDays").path("place").asText());
    assertEquals(400, setting("keepRawDays").path("value").asInt());
    assertTrue(setting("keepRawDays").path("waiting").asBoolean());
    change("{\"settings\":{\"keepRawDays\":null}}", 200);
    assertFalse(setting("keepRawDays").path("set").asBoolean());
    change("{\"settings\":{\"keepRawDays\":0.5}}", 400);
    change("{\"settings\":{\"httpHost\":\"0.0.0.0\"}}", 400);
    change("{}", 400);
    trial();
  }

  /** Nothing listens on port 9 of this machine. */
  private void trial() {
    String webhook = "{\"settings\":{\"notices.webhook.url\":\"http://127.0.0.1:9/hook\"}}";
    JsonNode trials = api.post(PATH + "/trial", webhook, 200);
    assertEquals(1, trials.size());
    assertFalse(trials.at("/0/delivered").asBoolean());
    assertFalse(setting("notices.webhook.url").path("set").asBoolean(), "a trial saves nothing");
    api.call("POST", PATH + "/trial", "{\"settings\":{\"notices.email.port\":\"many\"}}", 400);
  }

  private void change(String body, int status) {
    api.call("PATCH", PATH, body, status);
  }

  private JsonNode setting(String name) {
    return StreamSupport.stream(api.get(PATH).path("settings").spliterator(), false)
        .filter(setting -> setting.path("name").asText().equals(name))
        .findFirst()
        .orElseThrow();
  }
}
