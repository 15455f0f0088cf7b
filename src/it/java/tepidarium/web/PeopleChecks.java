package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;

/** People, tokens and sessions on a service that asks for no login. */
final class PeopleChecks {
  private final CheckedApi api;

  PeopleChecks(CheckedApi api) {
    this.api = api;
  }

  void all() {
    sessions();
    people();
    tokens();
    sensorAccounts();
  }

  private void sessions() {
    JsonNode session = api.get("/api/session");
    assertFalse(session.path("login").asBoolean());
    assertEquals("own", session.path("role").asText());
    String signIn = "{\"name\":\"owner\",\"password\":\"warm dark moist\"}";
    api.call("POST", "/api/session", signIn, 409);
    api.call("POST", "/api/session", "{\"name\":7}", 400);
    api.call("DELETE", "/api/session", null, 204);
    String change = "{\"current\":\"warm dark moist\",\"password\":\"dark and moist\"}";
    api.call("PUT", "/api/session/password", change, 409);
    assertEquals(0, api.get("/api/sessions").size());
    api.call("DELETE", "/api/sessions/7", null, 404);
  }

  private void people() {
    JsonNode owner = person("Olu", "own");
    JsonNode ada = person("Ada", "look");
    assertEquals(2, api.get("/api/people").path("people").size());
    api.call(
        "POST",
        "/api/people",
        "{\"name\":\"ada\",\"role\":\"look\",\"password\":\"heat and moss\"}",
        400);
    String path = "/api/people/" + ada.path("id");
    assertEquals("tend", api.put(path, "{\"role\":\"tend\"}").path("role").asText());
    api.call("PUT", path, "{\"password\":\"short\"}", 400);
    api.call("PUT", "/api/people/999", "{\"role\":\"tend\"}", 404);
    api.call("DELETE", path, null, 204);
    api.call("DELETE", path, null, 404);
    api.call("DELETE", "/api/people/" + owner.path("id"), null, 400);
  }

  private JsonNode person(String name, String role) {
    return api.post(
        "/api/people",
        "{\"name\":\"%s\",\"role\":\"%s\",\"password\":\"heat and moss\"}".formatted(name, role),
        201);
  }

  private void tokens() {
    JsonNode made =
        api.post("/api/tokens", "{\"name\":\"logger\",\"role\":\"look\",\"days\":30}", 201);
    assertTrue(made.path("secret").asText().startsWith("tepidarium_"));
    api.call("POST", "/api/tokens", "{\"name\":\"x\",\"role\":\"king\",\"days\":30}", 400);
    JsonNode listed = api.get("/api/tokens");
    assertEquals(1, listed.size());
    assertFalse(listed.path(0).has("secret"));
    String path = "/api/tokens/" + listed.path(0).path("id");
    api.call("DELETE", path, null, 204);
    api.call("DELETE", path, null, 404);
  }

  private void sensorAccounts() {
    String path = "/api/sensor-accounts";
    JsonNode made = api.post(path, "{\"name\":\"acc-1\"}", 201);
    assertEquals("tepidarium/acc-1/#", made.at("/account/topics/0").asText());
    assertTrue(made.path("firmware").asText().contains(made.path("password").asText()));
    api.call("POST", path, "{\"name\":\"acc-1\"}", 400);
    api.call("POST", path, "{\"name\":\"acc 2\"}", 400);
    api.call("POST", path, "{\"name\":\"acc-2\",\"topics\":[\"a/#/b\"]}", 400);
    JsonNode listed = api.get(path);
    assertEquals("loopback", listed.path("anonymous").asText());
    assertFalse(listed.toString().contains(made.path("password").asText()));
    JsonNode replaced = api.call("POST", path + "/acc-1/password", null, 200).json();
    assertFalse(replaced.path("password").equals(made.path("password")));
    api.call("POST", path + "/none/password", null, 404);
    JsonNode changed =
        api.call("PUT", path + "/acc-1/topics", "{\"topics\":[\"a/#\"],\"reads\":[\"b\"]}", 200)
            .json();
    assertEquals(changed, api.get(path).at("/accounts/0"));
    assertEquals("b", changed.at("/reads/0").asText());
    api.call("PUT", path + "/acc-1/topics", "{\"topics\":[\"a/#/b\"]}", 400);
    api.call("PUT", path + "/none/topics", "{\"topics\":[\"a\"]}", 404);
    api.call("DELETE", path + "/acc-1", null, 204);
    api.call("DELETE", path + "/acc-1", null, 404);
  }
}
