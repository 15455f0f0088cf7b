package tepidarium.web;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.access.Role;
import tepidarium.it.LoginProcess;
import tepidarium.it.LoginService;
import tepidarium.web.ApiDocument.Operation;
import tepidarium.web.access.RouteRoles;

/** The login on a running service: who may call what, sessions, tokens, guesses. */
class AccessIT {
  private static final Pattern PASSWORD = Pattern.compile("password  (\\S+)");
  private static final String CONTAINER = "{\"name\":\"Jar\",\"kind\":\"jar\"}";

  private static LoginService service;
  private static String password;
  private static Visit nobody;
  private static Visit owner;

  @BeforeAll
  static void start(@TempDir Path data) {
    service = LoginService.start(data, Map.of("proxies", List.of("127.0.0.1")));
    password = service.password();
    nobody = Visit.to(service.url());
    owner = nobody.from("192.0.2.1").signedIn("owner", password);
  }

  @AfterAll
  static void stop() {
    service.close();
  }

  private static Visit person(String name, String role) {
    String secret = "a password of " + name;
    Visit.Answer added =
        owner.call(
            "POST",
            "/api/people",
            "{\"name\":\"%s\",\"role\":\"%s\",\"password\":\"%s\"}".formatted(name, role, secret));
    assertEquals(201, added.status(), added.body());
    return nobody.from("192.0.2.2").signedIn(name, secret);
  }

  private static long idOf(String name) {
    for (JsonNode person : owner.get("/api/people").json().path("people")) {
      if (person.path("name").asText().equals(name)) {
        return person.path("id").asLong();
      }
    }
    throw new AssertionError("no person " + name);
  }

  @Test
  void withoutALoginOnlyTheLoginPageAndTheStatusAreOpen() {
    assertEquals(ApiDocument.json("{\"status\":\"up\"}"), nobody.get("/api/health").json());
    assertEquals(200, nobody.get("/login.html").status());
    assertEquals(200, nobody.get("/shared/style.css").status());
    assertEquals(401, nobody.get("/metrics").status());
    Visit.Answer refused = nobody.get("/api/containers");
    assertEquals(401, refused.status());
    assertEquals("application/problem+json", refused.header("Content-Type"));
    assertTrue(refused.header("WWW-Authenticate").startsWith("Bearer"));
    Visit.Answer page = nobody.get("/container.html?id=jar-1");
    assertEquals(303, page.status());
    assertEquals("/login.html?to=%2Fcontainer.html%3Fid%3Djar-1", path(page.header("Location")));
    assertFalse(page.body().contains("<html"), page.body());
    assertEquals(200, owner.get("/").status());
    assertEquals(200, owner.get("/metrics").status());
    assertTrue(owner.get("/api/health").json().path("parts").has("login"));
  }

  private static String path(String location) {
    return location.replaceFirst("^https?://[^/]+", "");
  }

  @Test
  void everyRouteHoldsItsRole() {
    ApiDocument document = new ApiDocument(owner.get("/api/openapi.json").json());
    Map<Role, Visit> visitors =
        Map.of(
            Role.LOOK, nobody.withToken(owner.token("look")),
            Role.TEND, nobody.withToken(owner.token("tend")),
            Role.OWN, nobody.withToken(owner.token("own")));
    List<String> wrong = new ArrayList<>();
    for (Operation operation : document.operations()) {
      Role needed = RouteRoles.of(operation.method(), operation.path()).orElseThrow().role();
      note(operation, nobody, needed == null ? 0 : 401, wrong);
      visitors.forEach(
          (role, visitor) -> {
            boolean may = needed == null || role.includes(needed);
            note(operation, visitor, may ? 0 : 403, wrong);
          });
    }
    assertEquals(List.of(), wrong);
  }

  /** Notes an answer other than expected; 0 stands for any that is not a refusal of the role. */
  private static void note(Operation operation, Visit visitor, int expected, List<String> wrong) {
    String path = operation.path().replaceAll("\\{\\w+}", "999999");
    boolean sends = !operation.method().equals("GET") && !operation.method().equals("DELETE");
    Visit.Answer answer =
        visitor
            .with("Content-Type", CheckedApi.mediaType(path))
            .call(operation.method(), path, sends ? "{}" : null);
    boolean refused = answer.status() == 401 || answer.status() == 403;
    if (expected == 0 ? refused : answer.status() != expected) {
      wrong.add(operation + " as " + visitor.headers() + ": " + answer.status());
    }
  }

  @Test
  void theCookieIsProtected() {
    Visit visit = nobody.from("192.0.2.3");
    String plain = visit.signIn("owner", password, false).header("Set-Cookie");
    assertTrue(plain.contains("; HttpOnly") && plain.contains("SameSite=Lax"), plain);
    assertFalse(plain.contains("Secure") || plain.contains("Max-Age"), plain);
    Visit.Answer tls = visit.with("X-Forwarded-Proto", "https").signIn("owner", password, true);
    String secure = tls.header("Set-Cookie");
    assertTrue(secure.contains("; Secure") && secure.contains("Max-Age=31536000"), secure);
  }

  @Test
  void aChangeWithACookieComesFromThisServicesPagesOnly() {
    Visit.Answer foreign =
        owner.with("Origin", "https://other.example").call("POST", "/api/containers", CONTAINER);
    assertEquals(403, foreign.status());
    assertTrue(foreign.body().contains("other.example"), foreign.body());
    Visit.Answer site =
        owner.with("Sec-Fetch-Site", "cross-site").call("POST", "/api/containers", CONTAINER);
    assertEquals(403, site.status());
    Visit program = nobody.withToken(owner.token("own")).with("Origin", "https://other.example");
    Visit.Answer made = program.call("POST", "/api/containers", CONTAINER);
    assertEquals(201, made.status(), made.body());
  }

  @Test
  void aWrongTokenDoesNotChangeALaterTokenOfItsConnection() {
    String secret = owner.token("look");
    Visit wrong = nobody.withToken(secret.toUpperCase(Locale.ROOT));
    assertEquals(401, wrong.get("/metrics").status());
    assertEquals(200, nobody.withToken(secret).get("/metrics").status());
  }

  @Test
  void aTokenThatWasRemovedIsRefused() {
    String secret = owner.token("look");
    Visit program = nobody.withToken(secret);
    assertEquals(200, program.get("/metrics").status());
    JsonNode tokens = owner.get("/api/tokens").json();
    JsonNode last = tokens.path(tokens.size() - 1);
    assertTrue(last.path("usedAt").isTextual());
    assertEquals(204, owner.call("DELETE", "/api/tokens/" + last.path("id"), null).status());
    Visit.Answer refused = program.get("/metrics");
    assertEquals(401, refused.status());
    assertTrue(refused.body().contains("token"), refused.body());
    assertEquals(401, owner.withToken("tepidarium_x").get("/api/containers").status());
  }

  @Test
  void changesAreRecordedUnderTheNameOfThePersonWhoIsSignedIn() {
    Visit ada = person("Ada", "own");
    Visit.Answer added = ada.call("POST", "/api/containers", CONTAINER);
    String rules = "/api/containers/" + added.json().path("id").asText() + "/alert-rules";
    String off = "{\"rules\":{\"cold\":{\"off\":true}},\"by\":\"somebody else\"}";
    Visit.Answer changed = ada.call("PUT", rules, off);
    assertFalse(changed.body().contains("somebody else"), changed.body());
  }

  @Test
  void aSessionEndsWithTheSignOut() {
    Visit ben = person("Ben", "look");
    assertEquals("Ben", ben.get("/api/session").json().path("name").asText());
    assertEquals(204, ben.call("DELETE", "/api/session", null).status());
    assertEquals(401, ben.get("/api/containers").status());
    assertEquals(200, nobody.get("/api/session").status());
  }

  @Test
  void peopleSeeAndEndTheirOwnSessionsOnly() {
    Visit cem = person("Cem", "tend");
    JsonNode own = cem.get("/api/sessions").json();
    assertEquals(1, own.size());
    assertTrue(own.path(0).path("current").asBoolean());
    JsonNode all = owner.get("/api/sessions").json();
    assertTrue(all.size() > 1);
    for (JsonNode session : all) {
      if (session.path("person").asText().equals("owner")) {
        String path = "/api/sessions/" + session.path("id");
        assertEquals(404, cem.call("DELETE", path, null).status());
      }
    }
  }

  @Test
  void theLiveStreamEndsWithTheSession() throws InterruptedException, IOException {
    Visit dora = person("Dora", "look");
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(service.url() + "/api/live"))
            .header("Accept", "text/event-stream")
            .header("Cookie", dora.headers().get("Cookie"))
            .build();
    HttpResponse<InputStream> stream = nobody.client().send(request, BodyHandlers.ofInputStream());
    assertEquals(200, stream.statusCode());
    String change = "{\"password\":\"another password\"}";
    assertEquals(200, owner.call("PUT", "/api/people/" + idOf("Dora"), change).status());
    assertEquals(401, dora.get("/api/containers").status());
    await().atMost(Duration.ofSeconds(10)).until(() -> ended(stream.body()));
  }

  /** Reads what has come; true at the end of the stream. */
  private static boolean ended(InputStream stream) {
    try {
      while (stream.available() > 0) {
        stream.skipNBytes(stream.available());
      }
      return stream.read() < 0;
    } catch (IOException e) {
      return true;
    }
  }

  @Test
  void aRoleThatChangesHoldsFromTheNextRequest() {
    Visit eva = person("Eva", "own");
    assertEquals(200, eva.get("/api/people").status());
    long id = idOf("Eva");
    assertEquals(200, owner.call("PUT", "/api/people/" + id, "{\"role\":\"tend\"}").status());
    Visit.Answer refused = eva.get("/api/people");
    assertEquals(403, refused.status());
    assertTrue(refused.body().contains("needs the role own"), refused.body());
    assertEquals(204, owner.call("DELETE", "/api/people/" + id, null).status());
    assertEquals(401, eva.get("/api/containers").status());
  }

  @Test
  void guessesAreSlowedAndToldToTheOwner() {
    Visit attacker = nobody.from("198.51.100.9");
    Visit.Answer answer = attacker.signIn("owner", "guess number 0", false);
    assertEquals(401, answer.status());
    String wrongPassword = answer.body();
    assertEquals(wrongPassword, attacker.signIn("no such person", "guess", false).body());
    // A slow machine may take longer for a guess than the first waits.
    for (int i = 2; i < 12 && answer.status() != 429; i++) {
      answer = attacker.signIn("owner", "guess number " + i, false);
    }
    assertEquals(429, answer.status());
    assertTrue(Integer.parseInt(answer.header("Retry-After")) >= 1);
    JsonNode wrong = owner.get("/api/people").json().path("wrongPasswords");
    assertTrue(wrong.path("lastDay").asInt() >= 5);
    assertEquals("198.51.100.9", wrong.path("latest").path(0).path("address").asText());
    String health = owner.get("/api/health").json().at("/parts/login/detail").asText();
    assertTrue(health.contains("; the latest at "), health);
    assertEquals(200, nobody.from("192.0.2.1").signIn("owner", password, false).status());
  }

  @Test
  void anAddressThatTheClientSendsItselfIsNotBelieved() {
    nobody.from("198.51.100.1, 203.0.113.5").signIn("owner", "a wrong password", false);
    JsonNode latest = owner.get("/api/people").json().at("/wrongPasswords/latest/0");
    assertEquals("203.0.113.5", latest.path("address").asText());
  }

  @Test
  void everyAnswerLimitsWhatABrowserDoesWithIt() {
    for (String path : List.of("/api/health", "/login.html", "/shared/page.js", "/nowhere")) {
      Visit.Answer answer = nobody.get(path);
      assertEquals("nosniff", answer.header("X-Content-Type-Options"), path);
      assertEquals("same-origin", answer.header("Referrer-Policy"), path);
      String policy = answer.header("Content-Security-Policy");
      assertTrue(policy.contains("frame-ancestors 'none'"), path + ": " + policy);
      assertEquals("", answer.header("Strict-Transport-Security"), path);
    }
  }

  @Test
  void theFirstStartForOtherMachinesShowsAPasswordAndNoSecretIsEverRepeated(@TempDir Path folder)
      throws IOException, InterruptedException {
    try (LoginProcess exposed = LoginProcess.start(folder.resolve("data"))) {
      Matcher shown = PASSWORD.matcher(exposed.output());
      assertTrue(shown.find(), exposed.output());
      String first = shown.group(1);
      assertFalse(shown.find(), "shown once");
      Visit visit = Visit.to(exposed.url());
      assertEquals(401, visit.get("/api/containers").status());
      Visit liar = visit.with("X-Forwarded-Proto", "https");
      assertFalse(liar.signIn("owner", first, false).header("Set-Cookie").contains("Secure"));
      Visit signedIn = visit.signedIn("owner", first);
      String token = signedIn.token("own");
      assertEquals(401, visit.signIn("unlikely-typed-name", "unlikely-guess", false).status());
      for (String path : List.of("/api/people", "/api/tokens", "/api/sessions", "/metrics")) {
        assertEquals(200, visit.withToken(token).get(path).status());
      }

      String said = exposed.setPassword("unlikely second password");
      assertTrue(said.contains("the sessions of owner have ended"), said);
      assertEquals(401, signedIn.get("/api/containers").status());
      Visit again = visit.signedIn("owner", "unlikely second password");
      assertEquals(200, again.get("/api/health").status());

      String everything =
          said + exposed.output().replaceFirst(Pattern.quote(first), "") + Visit.ANSWERS;
      String cookie = again.headers().get("Cookie").split("=", 2)[1];
      String oldCookie = signedIn.headers().get("Cookie").split("=", 2)[1];
      for (String secret :
          List.of(first, "unlikely", token, cookie, oldCookie, "$2b$", "password_hash")) {
        assertFalse(everything.contains(secret), secret);
      }
    }
  }
}
