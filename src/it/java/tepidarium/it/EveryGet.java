package tepidarium.it;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import tepidarium.exchange.Table;

/**
 * Calls every GET of the description of the API, with the ids that the service lists, the first of
 * each.
 */
public final class EveryGet {
  /**
   * They tell of the running process and not of the data: its state, its settings, address and
   * ports, and messages that it keeps in memory.
   */
  private static final Set<String> OF_THE_PROCESS =
      Set.of(
          "/api/live",
          "/api/health",
          "/api/health/live",
          "/api/health/ready",
          "/api/settings",
          "/api/setup",
          "/api/site",
          "/api/sites",
          "/api/labels",
          "/api/containers/{id}/label.svg",
          "/metrics",
          "/api/messages",
          "/api/messages/newest",
          "/api/imports",
          "/api/imports/{import}/rejected.csv");

  private final Api api;
  private final Map<String, List<String>> ids = new TreeMap<>();
  private final Set<String> withoutIds = new TreeSet<>();

  public EveryGet(Api api) {
    this.api = api;
    ids.put("id", listed("/api/containers", "id"));
    ids.put("sensor", listed("/api/sensors", "sensor"));
    ids.put("alert", listed("/api/alerts", "id"));
    ids.put("lot", listed("/api/lots", "id"));
    ids.put("sowing", listed("/api/sowings", "id"));
    ids.put("species", listed("/api/species", "id"));
    ids.put("season", listed("/api/seasons", "id"));
    ids.put(
        "group",
        some(
            api.get("/api/sowings").findValues("groups").stream()
                .flatMap(groups -> groups.findValuesAsText("id").stream())));
    ids.put("table", Arrays.stream(Table.values()).map(Table::key).toList());
    ids.put("quantity", List.of("temperature"));
    ids.put("sowings", List.of(String.join(",", ids.get("sowing").subList(0, 2))));
    ids.put("containers", List.of(String.join(",", ids.get("id").subList(0, 2))));
  }

  private List<String> listed(String path, String field) {
    List<String> found = new ArrayList<>();
    api.get(path).forEach(one -> found.add(one.path(field).asText()));
    return some(found.stream());
  }

  private static List<String> some(Stream<String> all) {
    return all.distinct().limit(2).toList();
  }

  /** The status and body of each answer, by its path. */
  public Map<String, String> answers() {
    Map<String, String> answers = new TreeMap<>();
    JsonNode document = api.get("/api/openapi.json");
    document
        .path("paths")
        .properties()
        .forEach(
            path -> {
              if (path.getValue().has("get") && !OF_THE_PROCESS.contains(path.getKey())) {
                for (String filled : filled(document, path.getKey(), path.getValue())) {
                  Api.Answer answer = api.call("GET", filled, null);
                  answers.put(filled, answer.status() + " " + answer.text());
                }
              }
            });
    return answers;
  }

  /** The described paths for which the service has no id. */
  public Set<String> withoutIds() {
    return withoutIds;
  }

  private List<String> filled(JsonNode document, String path, JsonNode item) {
    Set<String> filled = new LinkedHashSet<>(Set.of(path));
    List<JsonNode> parameters = new ArrayList<>();
    item.path("parameters").forEach(parameters::add);
    item.path("get").path("parameters").forEach(parameters::add);
    for (JsonNode written : parameters) {
      JsonNode parameter =
          written.has("$ref") ? document.at(written.path("$ref").asText().substring(1)) : written;
      String name = parameter.path("name").asText();
      // The comparison of heat needs containers or sources, so the description requires neither.
      if (parameter.path("required").asBoolean() || name.equals("containers")) {
        filled = with(filled, name, parameter.path("in").asText());
      }
    }
    if (filled.isEmpty()) {
      withoutIds.add(path);
    }
    return List.copyOf(filled);
  }

  private Set<String> with(Set<String> paths, String name, String in) {
    Set<String> filled = new LinkedHashSet<>();
    for (String path : paths) {
      for (String id : ids.getOrDefault(name, List.of())) {
        filled.add(
            in.equals("path")
                ? path.replace('{' + name + '}', id)
                : path + (path.contains("?") ? '&' : '?') + name + '=' + id);
      }
    }
    return filled;
  }
}
