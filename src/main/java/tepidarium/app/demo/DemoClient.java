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
 * Creates containers, placements, calibrations, openings and the seed records of the demo over the
 * HTTP API.
 */
final class DemoClient {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Duration CALL_TIMEOUT = Duration.ofSeconds(30);

  /** Counts of received readings, from the health of the service. */
  record Counts(long stored, long rejected, long waiting) {}

  private static final double CALIBRATION_ERROR_C = 0.1;

  private final URI api;
  private final HttpClient client = HttpClient.newBuilder().connectTimeout(CALL_TIMEOUT).build();

  DemoClient(URI api) {
    this.api = api;
  }

  void create(Garden garden) {
    Map<String, String> ids = new HashMap<>();
    for (SimulatedContainer container : garden.containers()) {
      String id = createContainer(container);
      ids.put(container.name(), id);
      container.sensors().forEach(sensor -> place(sensor, id, garden));
      container.checks().forEach(check -> record(check, id));
    }
    place(garden.room(), "room", garden);
    new SeedWriter(this, garden, ids).write(SeedBook.LOTS);
  }

  private String createContainer(SimulatedContainer container) {
    Map<String, Object> request =
        Map.of(
            "name", container.name(),
            "kind", container.kind().name().toLowerCase(Locale.ROOT),
            "heatSource", container.heatSource(),
            "room", container.room());
    return call("POST", "/api/containers", request).required("id").asText();
  }

  private void place(SimulatedSensor sensor, String container, Garden garden) {
    String path = "/api/sensors/" + sensor.id().name();
    Map<String, Object> request = Map.of("container", container, "from", garden.calendar().start());
    call("PUT", path + "/placement", request);
    // All sensors were compared in one water bath before the season.
    Map<String, Object> calibration =
        Map.of(
            "temperatureOffset",
            -sensor.temperatureBiasC(),
            "temperatureError",
            CALIBRATION_ERROR_C);
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
            .timeout(CALL_TIMEOUT)
            .header("Content-Type", "application/json")
            .method(
                method,
                body.isEmpty()
                    ? BodyPublishers.noBody()
                    : BodyPublishers.ofString(Json.write(body)))
            .build();
    HttpResponse<String> response = send(request);
    if (response.statusCode() / 100 != 2) {
      throw new IllegalStateException(method + ' ' + path + " failed: " + response.body());
    }
    try {
      return JSON.readTree(response.body());
    } catch (JsonProcessingException e) {
      throw new UncheckedIOException(method + ' ' + path + " did not return JSON", e);
    }
  }

  private HttpResponse<String> send(HttpRequest request) {
    try {
      return client.send(request, BodyHandlers.ofString());
    } catch (IOException e) {
      throw new UncheckedIOException("cannot reach " + request.uri(), e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while waiting for " + request.uri(), e);
    }
  }
}
