package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.URI;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;

/** What pages of other sites and hostile clients send, over bare sockets. */
class HostileClientsIT {
  private static final String NEW_JAR = "{\"name\":\"Foreign\",\"kind\":\"jar\"}";

  private static RunningService service;

  @BeforeAll
  static void start(@TempDir Path data) {
    Map<String, ?> names = Map.of("httpNames", List.of("garden.example.org"));
    service =
        RunningService.start(
            RunningService.config(data, "embedded", Ports.free(), names), Clock.systemUTC());
  }

  @AfterAll
  static void stop() {
    service.close();
  }

  private static String host() {
    return URI.create(service.url()).getAuthority();
  }

  private static RawHttp get(String path, String host) {
    return RawHttp.exchange(service.url(), "GET " + path + " HTTP/1.1\r\nHost: " + host, "");
  }

  /** Adds a container, with further header lines. */
  private static RawHttp write(String host, String headers) {
    String head =
        "POST /api/containers HTTP/1.1\r\nHost: " + host + "\r\n" + headers + "Content-Length: ";
    return RawHttp.exchange(service.url(), head + NEW_JAR.length(), NEW_JAR);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"/", "/api/containers", "/api/health", "/api/live", "/metrics", "/style.css"})
  void nothingIsReadThroughANameOfSomebodyElse(String path) {
    RawHttp answer = get(path, "evil.example:" + URI.create(service.url()).getPort());
    assertEquals(421, answer.status(), answer.body());
    assertEquals("application/problem+json", answer.type());
    assertTrue(answer.body().contains("httpNames"), answer.body());
  }

  @Test
  void nothingIsWrittenThroughANameOfSomebodyElse() {
    assertEquals(421, write("evil.example", "Content-Type: application/json\r\n").status());
    assertEquals(0, service.api().get("/api/containers").size());
  }

  @ParameterizedTest
  @ValueSource(strings = {"http://evil.example", "http://127.0.0.1:1", "null", "http://localhost"})
  void aForeignOriginChangesNothing(String origin) {
    RawHttp answer = write(host(), "Origin: " + origin + "\r\nContent-Type: application/json\r\n");
    assertEquals(403, answer.status(), answer.body());
    assertTrue(answer.body().contains("this service's own pages"), answer.body());
    assertEquals(0, service.api().get("/api/containers").size());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "Content-Type: text/plain\r\n",
        "Content-Type: a\r\n",
        "Content-Type: application/x-www-form-urlencoded\r\n",
        "Content-Type: text/csv\r\n"
      })
  void aBodyOfAnotherMediaTypeIsRefused(String type) {
    RawHttp answer = write(host(), type);
    assertEquals(415, answer.status(), answer.body());
    assertTrue(answer.body().contains("Content-Type: application/json"), answer.body());
  }

  @Test
  void ownPagesAndProxiesWithAKnownNameWrite() {
    String json = "Content-Type: application/json; charset=utf-8\r\n";
    assertEquals(201, write(host(), "Origin: " + service.url() + "\r\n" + json).status());
    String proxied = "Origin: https://garden.example.org\r\n" + json;
    assertEquals(201, write(host(), proxied).status());
    assertEquals(201, write("garden.example.org", proxied).status());
    assertEquals(201, write("localhost", json).status());
    service
        .api()
        .get("/api/containers")
        .forEach(
            jar ->
                service.api().call("DELETE", "/api/containers/" + jar.path("id").asText(), null));
  }

  @ParameterizedTest
  @CsvSource({
    "/, 200",
    "/style.css, 200",
    "/api/containers, 200",
    "/api/nothing, 404",
    "/api/live, 406",
    "/metrics, 200",
    "/api/containers/%zz, 400",
    "/nothing.html, 404"
  })
  void everyAnswerForbidsToGuessItsMediaType(String path, int status) {
    RawHttp answer = get(path, host());
    assertEquals(status, answer.status(), answer.body());
    assertEquals("nosniff", answer.header("X-Content-Type-Options"));
  }
}
