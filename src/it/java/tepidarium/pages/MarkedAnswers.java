package tepidarium.pages;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import tepidarium.web.ApiDocument;
import tepidarium.web.ApiDocument.Operation;

/**
 * Appends markup to every free text in the answers of the API before a page receives them. Free are
 * all strings that the description limits by no format, pattern or list. The markup is removed
 * again from the requests of the page, so that ids still fit.
 */
final class MarkedAnswers {
  /** Leaves an attribute or a tag that a page would build from text, and tries to run a script. */
  static final String MARKUP = "\"'><img src=x class=owned onerror=document.title='owned'>";

  /** Texts of which the service sends only its own words. */
  private static final Set<String> OWN_WORDS = Set.of("role");

  /** The live stream does not end. */
  private static final String ENDLESS = "/api/live";

  /** Takes the names of the free texts, and the markup. */
  private static final String EVENTS =
      """
      {
        const names = %s;
        const markup = %s;
        const mark = (value, name) => {
          if (typeof value === 'string') return names.includes(name) ? value + markup : value;
          if (Array.isArray(value)) return value.map((each) => mark(each, name));
          if (value === null || typeof value !== 'object') return value;
          return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, mark(each, key)]));
        };
        globalThis.EventSource = class extends EventSource {
          addEventListener(type, listener) {
            super.addEventListener(type, (event) => {
              const data = JSON.parse(event.data);
              const sent = globalThis.eventsAreMarked ? mark(data, '') : data;
              listener(new MessageEvent(type, { data: JSON.stringify(sent) }));
            });
          }
        };
      }
      """;

  private final ApiDocument document;
  private final Set<String> marked = new TreeSet<>();

  MarkedAnswers(ApiDocument document) {
    this.document = document;
  }

  /** The names of the fields in which the pages received markup. */
  Set<String> marked() {
    return marked;
  }

  void changeAnswersTo(Page page) {
    page.route("**/api/**", this::answer);
  }

  /**
   * Appends markup to the free texts in the events of the live stream, before the page hears them,
   * from {@link #beginMarkingEvents} on.
   */
  void markEvents(Page page) {
    Set<String> names = new TreeSet<>();
    for (String path : List.of("/api/containers", "/api/sensors", "/api/alerts", "/api/notices")) {
      addFree(List.of(schema(document.operation("GET", path), 200)), "", names, 0);
    }
    page.addInitScript(EVENTS.formatted(quoted(names), TextNode.valueOf(MARKUP)));
  }

  static void beginMarkingEvents(Page page) {
    page.evaluate("globalThis.eventsAreMarked = true");
  }

  private static String quoted(Set<String> texts) {
    ArrayNode all = JsonNodeFactory.instance.arrayNode();
    texts.forEach(all::add);
    return all.toString();
  }

  private void answer(Route route) {
    String path = URI.create(route.request().url()).getPath();
    if (path.equals(ENDLESS)) {
      route.resume();
      return;
    }
    String url = withoutMarkup(route.request().url());
    APIResponse answer = route.fetch(new Route.FetchOptions().setUrl(url).setPostData(sent(route)));
    Route.FulfillOptions changed = new Route.FulfillOptions().setResponse(answer);
    if (answer.headers().getOrDefault("content-type", "").startsWith("application/json")) {
      Operation operation = document.operation(route.request().method(), URI.create(url).getPath());
      JsonNode schema = schema(operation, answer.status());
      changed.setBody(mark(List.of(schema), ApiDocument.json(answer.text()), "").toString());
    }
    route.fulfill(changed);
  }

  /**
   * Browsers write a space as %20 in a path and as + in a query, and leave some signs as they are.
   */
  private static String withoutMarkup(String url) {
    String without = url;
    for (String form : forms()) {
      without = without.replace(form, "");
    }
    return without;
  }

  private static List<String> forms() {
    String query = URLEncoder.encode(MARKUP, StandardCharsets.UTF_8);
    String path = query.replace("+", "%20");
    return List.of(query, path, path.replace("%27", "'"), query.replace("%27", "'"));
  }

  private static String sent(Route route) {
    String data = route.request().postData();
    String quoted = TextNode.valueOf(MARKUP).toString();
    return data == null ? "" : data.replace(quoted.substring(1, quoted.length() - 1), "");
  }

  private JsonNode schema(Operation operation, int status) {
    JsonNode responses = document.details(operation).path("responses");
    JsonNode response = document.resolved(responses.path(Integer.toString(status)));
    return response.path("content").path("application/json").path("schema");
  }

  private JsonNode mark(List<JsonNode> schemas, JsonNode value, String name) {
    List<JsonNode> all = alternatives(schemas);
    if (value.isObject()) {
      ObjectNode changed = JsonNodeFactory.instance.objectNode();
      value
          .properties()
          .forEach(
              field ->
                  changed.set(
                      field.getKey(),
                      mark(property(all, field.getKey()), field.getValue(), field.getKey())));
      return changed;
    }
    if (value.isArray()) {
      List<JsonNode> items = all.stream().map(schema -> schema.path("items")).toList();
      ArrayNode changed = JsonNodeFactory.instance.arrayNode();
      value.forEach(item -> changed.add(mark(items, item, name)));
      return changed;
    }
    if (value.isTextual() && !OWN_WORDS.contains(name) && isFree(all)) {
      marked.add(name);
      return TextNode.valueOf(value.textValue() + MARKUP);
    }
    return value;
  }

  private List<JsonNode> alternatives(List<JsonNode> schemas) {
    List<JsonNode> all = new ArrayList<>();
    for (JsonNode each : schemas) {
      JsonNode schema = document.resolved(each);
      if (!schema.isMissingNode()) {
        all.add(schema);
        for (String choice : List.of("oneOf", "anyOf", "allOf")) {
          List<JsonNode> further = new ArrayList<>();
          schema.path(choice).forEach(further::add);
          all.addAll(alternatives(further));
        }
      }
    }
    return all;
  }

  private static List<JsonNode> property(List<JsonNode> schemas, String name) {
    List<JsonNode> found = new ArrayList<>();
    for (JsonNode schema : schemas) {
      JsonNode named = schema.path("properties").path(name);
      found.add(named.isMissingNode() ? schema.path("additionalProperties") : named);
    }
    return found;
  }

  private static boolean isFree(List<JsonNode> schemas) {
    return schemas.stream().anyMatch(schema -> schema.path("type").toString().contains("string"))
        && schemas.stream()
            .noneMatch(
                schema ->
                    List.of("enum", "const", "format", "pattern").stream().anyMatch(schema::has));
  }

  /** The names of all free texts in the bodies of requests. */
  Set<String> entered() {
    Set<String> names = new TreeSet<>();
    for (Operation operation : document.operations()) {
      JsonNode body = document.resolved(document.details(operation).path("requestBody"));
      addFree(List.of(body.path("content").path("application/json").path("schema")), "", names, 0);
    }
    return names;
  }

  private void addFree(List<JsonNode> schemas, String name, Set<String> names, int depth) {
    if (depth > 8) {
      return;
    }
    List<JsonNode> all = alternatives(schemas);
    if (!OWN_WORDS.contains(name) && isFree(all)) {
      names.add(name);
    }
    for (JsonNode schema : all) {
      schema
          .path("properties")
          .properties()
          .forEach(field -> addFree(List.of(field.getValue()), field.getKey(), names, depth + 1));
      addFree(List.of(schema.path("items")), name, names, depth + 1);
      addFree(List.of(schema.path("additionalProperties")), name, names, depth + 1);
    }
  }
}
