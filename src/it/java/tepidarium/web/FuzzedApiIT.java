package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.UncheckedIOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;
import tepidarium.web.ApiDocument.Operation;

/**
 * Random requests to each described route, made from its description. None may cause a failure of
 * the service, and no answer may tell how the service is made.
 */
class FuzzedApiIT {
  private static final int REQUESTS_FOR_EACH = 12;

  /** The live stream does not end. */
  private static final String ENDLESS = "/api/live";

  private static final Pattern INTERNALS =
      Pattern.compile("Exception|\\.java:|tepidarium\\.[a-z]+\\.|SQLITE|\\bSELECT\\b");

  private static RunningService service;
  private static CheckedApi api;

  @BeforeAll
  static void start(@TempDir Path data) {
    service =
        RunningService.start(
            RunningService.config(data, "embedded", Ports.free(), Map.of()), Clock.systemUTC());
    api = new CheckedApi(service.url());
  }

  @AfterAll
  static void stop() {
    service.close();
  }

  @Test
  void noRequestCausesAFailure() {
    String jar = "{\"name\":\"Jar\",\"kind\":\"jar\"}";
    String id = api.post("/api/containers", jar, 201).get("id").textValue();
    List<String> failures = new ArrayList<>();
    int accepted = 0;
    for (Operation operation : api.document().operations()) {
      Random random = new Random(operation.toString().hashCode());
      for (int i = 0; i < REQUESTS_FOR_EACH && !operation.path().equals(ENDLESS); i++) {
        FuzzedRequest request =
            new FuzzedRequest(api.document(), operation, random, List.of(id, "room", "1"));
        try {
          HttpResponse<String> answer =
              api.send(operation.method(), request.path(), request.body(), request.headers());
          accepted += answer.statusCode() < 300 ? 1 : 0;
          String fault = fault(operation, answer);
          if (!fault.isEmpty()) {
            failures.add(request + " -> " + answer.statusCode() + ' ' + fault);
          }
        } catch (UncheckedIOException e) {
          failures.add(request + " -> no answer: " + e.getMessage());
        }
      }
    }

    assertEquals(List.of(), failures);
    // Otherwise the requests would be too wild to reach the code behind the checks.
    assertTrue(accepted > 150, accepted + " requests were accepted");
    assertEquals("up", api.get("/api/health").get("status").textValue());
  }

  private static String fault(Operation operation, HttpResponse<String> answer) {
    String type = answer.headers().firstValue("content-type").orElse("");
    if (answer.statusCode() < 300) {
      return String.join(
          "; ", api.document().faultsOfAnswer(operation, answer.statusCode(), type, answer.body()));
    }
    boolean problem = type.startsWith("application/problem+json");
    boolean refused = answer.statusCode() >= 400 && answer.statusCode() < 500;
    boolean silent = !INTERNALS.matcher(answer.body()).find();
    return problem && refused && silent ? "" : type + ' ' + answer.body();
  }

  /** A random request to an operation. Some parts are as described, others are not. */
  private static final class FuzzedRequest {
    private static final List<String> USUAL =
        List.of("a", "Jar", "2026-03-01T06:00:00Z", "2026-03-01", "30.5", "3", "true", "bag-1");

    private final ApiDocument document;
    private final Random random;
    private final List<String> ids;
    private final Map<String, String> headers = new LinkedHashMap<>();
    private final String path;
    private final String body;

    private final Operation operation;

    FuzzedRequest(ApiDocument document, Operation operation, Random random, List<String> ids) {
      this.document = document;
      this.operation = operation;
      this.random = random;
      this.ids = ids;
      JsonNode details = document.details(operation);
      this.path = path(operation.path(), details);
      JsonNode content = document.resolved(details.path("requestBody")).path("content");
      String type = content.fieldNames().hasNext() ? content.fieldNames().next() : "";
      if (type.isEmpty()) {
        this.body = null;
      } else {
        headers.put("Content-Type", type);
        this.body =
            type.endsWith("json")
                ? broken(value(content.path(type).path("schema"), 0))
                : String.join("\n", text(), text(), text());
      }
    }

    String path() {
      return path;
    }

    String body() {
      return body;
    }

    Map<String, String> headers() {
      return headers;
    }

    private boolean chance(double probability) {
      return random.nextDouble() < probability;
    }

    private <T> T one(List<T> of) {
      return of.get(random.nextInt(of.size()));
    }

    private String text() {
      return one(chance(0.6) ? USUAL : StrangeValues.TEXTS);
    }

    private String path(String template, JsonNode details) {
      String path =
          Pattern.compile("\\{\\w+}")
              .matcher(template)
              .replaceAll(name -> StrangeValues.encoded(chance(0.8) ? one(ids) : text()));
      List<String> query = new ArrayList<>();
      for (JsonNode each : details.path("parameters")) {
        JsonNode parameter = document.resolved(each);
        if (parameter.path("in").asText().equals("query") && chance(0.6)) {
          String value = chance(0.6) ? plain(parameter.path("schema")) : text();
          query.add(parameter.path("name").asText() + '=' + StrangeValues.encoded(value));
        }
      }
      return query.isEmpty() ? path : path + '?' + String.join("&", query);
    }

    /** Removes the quotes of a text. */
    private String plain(JsonNode schema) {
      String value = value(schema, 0);
      return value.startsWith("\"") ? ApiDocument.json(value).asText() : value;
    }

    /** Sometimes cuts JSON off or nests it. */
    private String broken(String json) {
      if (chance(0.03)) {
        return json.substring(0, random.nextInt(json.length() + 1));
      }
      return chance(0.03) ? "[".repeat(500) + json : json;
    }

    /** JSON that mostly fits a schema. */
    private String value(JsonNode unresolved, int depth) {
      JsonNode schema = document.resolved(unresolved);
      if (chance(0.08) || depth > 6) {
        return one(List.of("null", "-1", "1e308", "\"\"", "[]", "{}", "true", quoted(text())));
      }
      for (String choice : List.of("oneOf", "anyOf", "allOf")) {
        if (schema.has(choice)) {
          return value(schema.path(choice).get(random.nextInt(schema.path(choice).size())), depth);
        }
      }
      if (schema.has("enum")) {
        return schema.path("enum").get(random.nextInt(schema.path("enum").size())).toString();
      }
      JsonNode type =
          schema.path("type").isArray() ? schema.path("type").get(0) : schema.path("type");
      return switch (type.asText()) {
        case "object" -> object(schema, depth);
        case "array" -> array(schema, depth);
        case "integer" -> Integer.toString(random.nextInt(chance(0.8) ? 40 : Integer.MAX_VALUE));
        case "number" -> Double.toString(random.nextGaussian() * (chance(0.8) ? 30 : 1e12));
        case "boolean" -> Boolean.toString(random.nextBoolean());
        default -> quoted(string(schema));
      };
    }

    private String string(JsonNode schema) {
      if (schema.path("format").asText().equals("date-time") && chance(0.9)) {
        return "2026-%02d-01T06:00:00Z".formatted(1 + random.nextInt(11));
      }
      return chance(0.5) ? one(ids) : text();
    }

    private String object(JsonNode schema, int depth) {
      List<String> fields = new ArrayList<>();
      schema
          .path("properties")
          .properties()
          .forEach(
              field -> {
                if (chance(0.9)) {
                  fields.add(quoted(field.getKey()) + ':' + value(field.getValue(), depth + 1));
                }
              });
      if (chance(0.05)) {
        fields.add("\"unknown\":1");
      }
      return '{' + String.join(",", fields) + '}';
    }

    private String array(JsonNode schema, int depth) {
      List<String> items = new ArrayList<>();
      for (int i = random.nextInt(4); i > 0; i--) {
        items.add(value(schema.path("items"), depth + 1));
      }
      return '[' + String.join(",", items) + ']';
    }

    private static String quoted(String text) {
      return TextNode.valueOf(text).toString();
    }

    @Override
    public String toString() {
      return operation.method() + ' ' + path + ' ' + body;
    }
  }
}
