package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;

/** The report of a season and the archive, every answer that is described. */
final class SeasonChecks {
  private final CheckedApi api;

  SeasonChecks(CheckedApi api) {
    this.api = api;
  }

  void run() {
    JsonNode report = api.get("/api/seasons/report");
    assertTrue(report.path("sowings").size() > 0);
    CheckedApi.Answer kept = api.call("POST", "/api/seasons", "{\"name\":\"Spring\"}", 201);
    String path = kept.header("location");
    assertEquals(1, api.get("/api/seasons").size());
    assertEquals(report.path("sowings"), api.get(path).at("/report/sowings"));
    refused("POST", "/api/seasons", "{\"name\":\"SPRING\"}", 409, "kept already");
    refused("POST", "/api/seasons", "{}", 400, "name is missing");
    refused("POST", "/api/seasons", "{\"name\":\" \"}", 400, "1 to 60");
    refused("POST", "/api/seasons", "{\"name\":\"A\",\"from\":\"May\"}", 400, "from must be");
    refused("GET", "/api/seasons/report?from=noon", null, 400, "from must be");
    refused("GET", "/api/seasons/report?from=2990-01-01T00:00:00Z", null, 400, "in the past");
    refused("GET", "/api/seasons/report?from=1990-01-01T00:00:00Z", null, 400, "1000 days");
    refused(
        "GET",
        "/api/seasons/report?from=2026-02-01T00:00:00Z&to=2026-01-01T00:00:00Z",
        null,
        400,
        "from must lie before to");
    api.call("DELETE", path, null, 204);
    refused("DELETE", path, null, 404, "no season");
    refused("GET", "/api/seasons/spring", null, 404, "no season");
  }

  private void refused(String method, String path, String body, int status, String word) {
    String detail = api.call(method, path, body, status).json().path("detail").asText();
    assertTrue(detail.contains(word), detail);
  }
}
