package tepidarium.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SchemaRegistryConfig;
import com.networknt.schema.dialect.Dialect;
import com.networknt.schema.dialect.Dialects;
import com.networknt.schema.keyword.NonValidationKeyword;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/** The description of the API, and what it says of a request or an answer. */
public final class ApiDocument {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Set<String> METHODS = Set.of("get", "put", "post", "delete", "patch");

  /** A method and a path with its parameters in braces. */
  public record Operation(String method, String path) implements Comparable<Operation> {
    public boolean covers(String otherMethod, String otherPath) {
      return method.equals(otherMethod)
          && otherPath.matches(path.replace(".", "\\.").replaceAll("\\{\\w+}", "[^/]+"));
    }

    @Override
    public int compareTo(Operation other) {
      return toString().compareTo(other.toString());
    }

    @Override
    public String toString() {
      return method + ' ' + path;
    }
  }

  private final JsonNode document;
  private final SchemaRegistry registry;

  public ApiDocument(JsonNode document) {
    this.document = document;
    // The document's components go along with each schema, so that its references find them.
    Dialect dialect =
        Dialect.builder(Dialects.getDraft202012())
            .keyword(new NonValidationKeyword("components"))
            .build();
    SchemaRegistryConfig strict =
        SchemaRegistryConfig.builder().formatAssertionsEnabled(true).build();
    this.registry =
        SchemaRegistry.withDefaultDialect(dialect, builder -> builder.schemaRegistryConfig(strict));
  }

  public JsonNode root() {
    return document;
  }

  public Set<Operation> operations() {
    Set<Operation> operations = new TreeSet<>();
    document
        .path("paths")
        .properties()
        .forEach(
            path ->
                path.getValue()
                    .fieldNames()
                    .forEachRemaining(
                        name -> {
                          if (METHODS.contains(name)) {
                            String method = name.toUpperCase(Locale.ROOT);
                            operations.add(new Operation(method, path.getKey()));
                          }
                        }));
    return operations;
  }

  /** The described operation that a request is. */
  public Operation operation(String method, String path) {
    return operations().stream()
        .filter(operation -> operation.covers(method, path))
        .findFirst()
        .orElseThrow(() -> new AssertionError(method + ' ' + path + " is not described"));
  }

  public JsonNode details(Operation operation) {
    return document.path("paths").path(operation.path()).path(method(operation));
  }

  private static String method(Operation operation) {
    return operation.method().toLowerCase(Locale.ROOT);
  }

  /** The status codes described one by one; a failure of the service is not among them. */
  Set<String> statuses(Operation operation) {
    Set<String> statuses = new TreeSet<>();
    details(operation).path("responses").fieldNames().forEachRemaining(statuses::add);
    statuses.remove("default");
    return statuses;
  }

  /** Names of the query parameters. */
  Set<String> queryParameters(Operation operation) {
    Set<String> names = new TreeSet<>();
    for (JsonNode parameter : details(operation).path("parameters")) {
      JsonNode whole = resolved(parameter);
      if ("query".equals(whole.path("in").asText())) {
        names.add(whole.path("name").asText());
      }
    }
    return names;
  }

  /** What is wrong with an answer. */
  List<String> faultsOfAnswer(Operation operation, int status, String type, String body) {
    JsonNode answer = resolved(details(operation).path("responses").path(Integer.toString(status)));
    if (answer.isMissingNode()) {
      return List.of("status " + status + " is not described: " + body);
    }
    JsonNode content = answer.path("content");
    if (content.isMissingNode()) {
      return body.isEmpty() ? List.of() : List.of("a body, but none is described: " + body);
    }
    String mediaType = type.split(";", 2)[0].strip();
    JsonNode schema = content.path(mediaType).path("schema");
    if (schema.isMissingNode()) {
      return List.of("media type " + type + " is not described");
    }
    return faults(schema, mediaType.endsWith("json") ? json(body) : JSON.valueToTree(body));
  }

  /** What is wrong with the body of a request. */
  List<String> faultsOfRequest(Operation operation, String body) {
    JsonNode described = resolved(details(operation).path("requestBody"));
    JsonNode content = described.path("content");
    if (!content.isMissingNode() && !content.has("application/json")) {
      return List.of();
    }
    JsonNode schema = content.path("application/json").path("schema");
    return schema.isMissingNode()
        ? List.of("a body, but none is described")
        : faults(schema, json(body));
  }

  /** What is wrong with an event of the live stream. */
  List<String> faultsOfEvent(Operation operation, String name, String data) {
    JsonNode answer = resolved(details(operation).path("responses").path("200"));
    JsonNode schema = answer.path("content").path("text/event-stream").path("x-events").path(name);
    return schema.isMissingNode()
        ? List.of("event " + name + " is not described")
        : faults(schema, json(data));
  }

  /** What is wrong with a value under a schema of this document. */
  public List<String> faults(JsonNode schema, JsonNode value) {
    ObjectNode whole = schema.deepCopy();
    whole.set("components", document.path("components"));
    return registry.getSchema(whole).validate(value).stream()
        .map(error -> error.getInstanceLocation() + ": " + error.getMessage())
        .toList();
  }

  public JsonNode resolved(JsonNode node) {
    String reference = node.path("$ref").asText();
    return reference.startsWith("#/") ? document.at(reference.substring(1)) : node;
  }

  public static JsonNode json(String text) {
    try {
      return JSON.readTree(text);
    } catch (IOException e) {
      throw new UncheckedIOException("not JSON: " + text, e);
    }
  }
}
