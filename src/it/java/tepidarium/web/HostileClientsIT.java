package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;
import tepidarium.web.ApiDocument.Operation;
import tepidarium.web.live.LiveStream;

/** What pages of other sites and hostile clients send, over bare sockets. */
class HostileClientsIT {
  private static final String NEW_JAR = "{\"name\":\"Foreign\",\"kind\":\"jar\"}";

  private static RunningService service;
  private static CheckedApi api;

  @BeforeAll
  static void start(@TempDir Path data) {
    Map<String, ?> names = Map.of("httpNames", List.of("garden.example.org"));
    service =
        RunningService.start(
            RunningService.config(data, "embedded", Ports.free(), names), Clock.systemUTC());
    api = new CheckedApi(service.url());
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
      strings = {
        "/",
        "/api/containers",
        "/api/health",
        "/api/live",
        "/metrics",
        "/shared/style.css"
      })
  void aClientCannotReadUnderAnotherClientsName(String path) {
    RawHttp answer = get(path, "evil.example:" + URI.create(service.url()).getPort());
    assertEquals(421, answer.status(), answer.body());
    assertEquals("application/problem+json", answer.type());
    assertTrue(answer.body().contains("httpNames"), answer.body());
  }

  @Test
  void aClientCannotPublishUnderAnotherClientsName() {
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
  void requestsOfOwnPagesAndKnownProxiesMayWrite() {
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
    "/shared/style.css, 200",
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

  /** Opens a live stream from an address of this machine. */
  private static Socket stream(String from) throws IOException {
    URI url = URI.create(service.url());
    Socket socket =
        new Socket(
            InetAddress.getByName(url.getHost()), url.getPort(), InetAddress.getByName(from), 0);
    socket.setSoTimeout(20_000);
    String head =
        "GET /api/live HTTP/1.1\r\nHost: " + host() + "\r\nAccept: text/event-stream\r\n\r\n";
    socket.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
    return socket;
  }

  private static String firstLine(Socket stream) throws IOException {
    byte[] line = stream.getInputStream().readNBytes("HTTP/1.1 200".length());
    return new String(line, StandardCharsets.US_ASCII);
  }

  @Test
  void oneClientLeavesLiveStreamsToOthers() throws IOException {
    List<Socket> open = new ArrayList<>();
    try {
      for (int i = 0; i < LiveStream.MAX_PER_ADDRESS; i++) {
        Socket stream = stream("127.0.0.1");
        open.add(stream);
        assertEquals("HTTP/1.1 200", firstLine(stream));
      }
      RawHttp refused = get("/api/live", host() + "\r\nAccept: text/event-stream");
      assertEquals(429, refused.status(), refused.body());
      assertTrue(
          refused.body().contains(LiveStream.MAX_PER_ADDRESS + " live pages"), refused.body());
      open.add(stream("127.0.0.2"));
      assertEquals("HTTP/1.1 200", firstLine(open.get(LiveStream.MAX_PER_ADDRESS)));
    } finally {
      for (Socket stream : open) {
        stream.close();
      }
    }
  }

  private static final List<String> BODIES =
      List.of(
          "[".repeat(50_000),
          "{\"a\":".repeat(50_000),
          "{\"name\":" + "[".repeat(500) + "]".repeat(500) + '}',
          "{\"minutes\":" + "9".repeat(50_000) + '}',
          "{\"seeds\":" + "9".repeat(50_000) + '}',
          "{\"seeds\":99999999999999999999}",
          "{\"lot\":1e999999999}",
          "{\"base\":-1e999999999}",
          "{\"" + "n".repeat(100_000) + "\":1}",
          "{\"name\":\"\\ud800\",\"kind\":\"jar\"",
          "\"",
          "7");

  @TestFactory
  Stream<DynamicTest> noBodyIsAnswered500() {
    return operations()
        .filter(operation -> api.document().details(operation).has("requestBody"))
        .map(operation -> DynamicTest.dynamicTest(operation.toString(), () -> sendAll(operation)));
  }

  private static void sendAll(Operation operation) {
    for (String body : BODIES) {
      HttpResponse<String> answer =
          api.send(operation.method(), ApiIT.concrete(operation), body, Map.of());
      assertRefused(operation, answer, body);
    }
    Map<String, String> charset = Map.of("Content-Type", "application/json; charset=none");
    int status = api.send(operation.method(), ApiIT.concrete(operation), "{", charset).statusCode();
    assertTrue(status >= 400 && status < 500, operation + " -> " + status);
  }

  private static void assertRefused(Operation operation, HttpResponse<String> answer, String sent) {
    assertTrue(
        answer.statusCode() >= 400 && answer.statusCode() < 500,
        () ->
            "%s -> %d: %s for %s"
                .formatted(
                    operation,
                    answer.statusCode(),
                    answer.body(),
                    sent.substring(0, Math.min(60, sent.length()))));
  }

  @TestFactory
  Stream<DynamicTest> noParameterIsAnswered500() {
    return operations()
        .filter(
            operation -> operation.method().equals("GET") && !operation.path().equals("/api/live"))
        .map(operation -> DynamicTest.dynamicTest(operation.toString(), () -> askAll(operation)));
  }

  private static void askAll(Operation operation) {
    for (String text : StrangeValues.TEXTS) {
      String value = StrangeValues.encoded(text);
      for (String name : api.document().queryParameters(operation)) {
        String query = ApiIT.concrete(operation) + '?' + name + '=' + value;
        int status = api.send("GET", query, null, Map.of()).statusCode();
        assertTrue(status < 500, query + " -> " + status);
      }
      assertNoFailure(operation.path().replaceAll("\\{[a-z]+}", value));
    }
    for (String value : StrangeValues.UNDECODABLE) {
      assertNoFailure(operation.path().replaceAll("\\{[a-z]+}", value));
      assertNoFailure(ApiIT.concrete(operation) + "?from=" + value + "&to=" + value);
    }
  }

  private static void assertNoFailure(String path) {
    int status = get(path, host()).status();
    assertTrue(status < 500, path + " -> " + status);
  }

  private static Stream<Operation> operations() {
    return api.document().operations().stream();
  }
}
