package tepidarium.app.demo;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import tepidarium.web.Json;

/**
 * Does over the HTTP API what a grower does on the pages: lays out containers and sensors, keeps a
 * seed book.
 */
final class DemoClient {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Duration CALL_LIMIT = Duration.ofSeconds(30);

  /** What the service has taken in; see its health. */
  record Counts(long stored, long rejected, long waiting) {}

  private static final double BATH_ERROR_C = 0.1;

  private final URI api;
  private final HttpClient client = HttpClient.newBuilder().connectTimeout(CALL_LIMIT).build();

  DemoClient(URI api) {
    this.api = api;
  }

  void layOut(Garden garden) {
    Map<String, String> ids = new HashMap<>();
    for (SimulatedContainer container : garden.containers()) {
      String id = add(container);
      ids.put(container.name(), id);
      container.nodes().forEach(node -> place(node, id, garden));
      container.checks().forEach(check -> record(check, id));
    }
    place(garden.room(), "room", garden);
    new SeedWriter(this, garden, ids).write(SeedBook.LOTS);
  }

  private String add(SimulatedContainer container) {
    Map<String, Object> request =
        Map.of(
            "name", container.name(),
            "kind", container.kind().name().toLowerCase(Locale.ROOT),
            "heatSource", container.heatSource());
    return call("POST", "/api/containers", request).required("id").asText();
  }

  private void place(SimulatedSensor node, String container, Garden garden) {
    String path = "/api/sensors/" + node.sensor().name();
    Map<String, Object> request = Map.of("container", container, "from", garden.calendar().start());
    call("PUT", path + "/placement", request);
    // All of them lay in one bath of warm water before the season.
    Map<String, Object> calibration =
        Map.of("temperatureOffset", -node.readsHighC(), "temperatureError", BATH_ERROR_C);
    call("PUT", path + "/calibration", calibration);
  }

  private void record(ContainerCheck check, String container) {
    double minutes = check.span().length().toSeconds() / 60.0;
    Map<String, Object> request = Map.of("from", check.span().from(), "minutes", minutes);
    call("POST", "/api/containers/" + container + "/openings", request);
  }

  Counts counts() {
    JsonNode counts = call("GET", "/api/health", Map.of()).required("counts");
    return new Counts(
        counts.required("stored").asLong(),
        counts.required("rejected").asLong(),
        counts.required("waiting").asLong());
  }

  JsonNode call(String method, String path, Map<String, Object> body) {
    HttpRequest request =
        HttpRequest.newBuilder(api.resolve(path))
            .timeout(CALL_LIMIT)
            .header("Content-Type", "application/json")
            .method(
                method,
                body.isEmpty()
                    ? BodyPublishers.noBody()
                    : BodyPublishers.ofString(Json.write(body)))
            .build();
    HttpResponse<String> response = send(request);
    if (response.statusCode() / 100 != 2) {
      throw new IllegalStateException(method + ' ' + path + " was refused: " + response.body());
    }
    try {
      return JSON.readTree(response.body());
    } catch (JsonProcessingException e) {
      throw new UncheckedIOException(method + ' ' + path + " did not answer in JSON", e);
    }
  }

  private HttpResponse<String> send(HttpRequest request) {
    try {
      return client.send(request, BodyHandlers.ofString());
    } catch (IOException e) {
      throw new UncheckedIOException("no answer from " + request.uri(), e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while waiting for " + request.uri(), e);
    }
  }
}
