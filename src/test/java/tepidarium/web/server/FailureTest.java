package tepidarium.web.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.Javalin;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tepidarium.heat.HeatRule;
import tepidarium.reading.InvalidInput;
import tepidarium.web.ApiDocument;

/** Input that cannot be used is 400 and names the field; a mistake of this program is 500. */
class FailureTest {
  private Javalin server;

  @BeforeEach
  void start() {
    server =
        RouteServer.start(
            config -> {
              config.routes.get(
                  "/input",
                  ctx -> {
                    throw new InvalidInput("seeds", "must be above 0");
                  });
              config.routes.get("/mistake", ctx -> ctx.json(new HeatRule(30, 15.0)));
            });
  }

  @AfterEach
  void stop() {
    server.stop();
  }

  private JsonNode problem(String path, int status) throws IOException, InterruptedException {
    URI uri = URI.create("http://127.0.0.1:" + server.port() + path);
    var answer =
        HttpClient.newHttpClient()
            .send(HttpRequest.newBuilder(uri).build(), BodyHandlers.ofString());
    assertEquals(status, answer.statusCode(), answer.body());
    return ApiDocument.json(answer.body());
  }

  @Test
  void invalidInputIsReportedWithItsField() throws IOException, InterruptedException {
    JsonNode problem = problem("/input", 400);
    assertEquals("seeds", problem.path("field").asText());
    assertEquals("urn:tepidarium:problem:invalid-input", problem.path("type").asText());
    assertEquals("seeds must be above 0", problem.path("detail").asText());
  }

  @Test
  void anInternalErrorIsNotReportedAsInvalidInput() throws IOException, InterruptedException {
    JsonNode problem = problem("/mistake", 500);
    String reference = problem.path("reference").asText();
    assertTrue(reference.matches("[0-9a-f]{8}"), problem.toString());
    assertTrue(problem.path("detail").asText().contains(reference));
    assertFalse(problem.path("detail").asText().contains("ceiling"), "the cause stays in the log");
  }
}
