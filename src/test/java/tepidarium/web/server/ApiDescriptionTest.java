package tepidarium.web.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tepidarium.web.ApiDocument;
import tepidarium.web.ApiDocument.Operation;

class ApiDescriptionTest {
  private static final Set<String> KEYWORDS =
      Set.of(
          "$ref",
          "additionalProperties",
          "const",
          "default",
          "description",
          "enum",
          "examples",
          "exclusiveMinimum",
          "format",
          "items",
          "maximum",
          "maxItems",
          "maxLength",
          "minimum",
          "minItems",
          "minLength",
          "oneOf",
          "pattern",
          "properties",
          "required",
          "type",
          "uniqueItems");

  private final ApiDocument document = new ApiDocument(read());

  private static JsonNode read() {
    try (InputStream yaml = ApiDescriptionTest.class.getResourceAsStream("/openapi.yaml")) {
      assertNotNull(yaml);
      return new YAMLMapper().readTree(yaml);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void theDocumentDescribesExactlyTheRoutesThatTheServerHas() {
    assertEquals(routes(), document.operations());
  }

  private static Set<Operation> routes() {
    return AddedRoutes.with(config -> {}).stream()
        .map(endpoint -> new Operation(endpoint.method.name(), endpoint.path))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  @Test
  void everyOperationSaysWhatItDoesAndHowItFails() {
    for (Operation operation : document.operations()) {
      JsonNode details = document.details(operation);
      assertTrue(details.path("summary").asText().endsWith("."), operation + ": summary");
      assertTrue(details.path("operationId").isTextual(), operation + ": operationId");
      assertTrue(details.path("responses").has("default"), operation + ": default");
    }
  }

  @Test
  void everyParameterIsDescribedAndListsItsLimits() {
    List<String> poor = new ArrayList<>();
    for (JsonNode parameter : document.root().findParents("in")) {
      if (!parameter.path("description").asText().endsWith(".") || !parameter.has("schema")) {
        poor.add(parameter.toString());
      }
    }
    assertEquals(List.of(), poor);
  }

  @Test
  void schemasUseOnlyKnownKeywordsAndDescribeEveryField() {
    List<String> poor = new ArrayList<>();
    schemas().properties().forEach(schema -> check(schema.getKey(), schema.getValue(), poor));
    assertEquals(List.of(), poor);
  }

  private static void check(String name, JsonNode schema, List<String> poor) {
    schema
        .fieldNames()
        .forEachRemaining(word -> addUnless(KEYWORDS.contains(word), name, word, poor));
    boolean open = schema.has("properties") && schema.path("additionalProperties").isMissingNode();
    addUnless(!open, name, "open to other fields", poor);
    schema
        .path("properties")
        .properties()
        .forEach(
            field -> {
              String inner = name + '.' + field.getKey();
              JsonNode described = field.getValue();
              boolean says =
                  described.has("description") || described.has("$ref") || described.has("oneOf");
              addUnless(says, inner, "no description", poor);
              check(inner, described, poor);
            });
    for (JsonNode needed : schema.path("required")) {
      boolean there = schema.path("properties").has(needed.asText());
      addUnless(there, name, "required but unknown: " + needed.asText(), poor);
    }
  }

  private static void addUnless(boolean good, String name, String fault, List<String> poor) {
    if (!good) {
      poor.add(name + ": " + fault);
    }
  }

  @Test
  void theExamplesAreWhatTheSchemasAskFor() {
    int examples = 0;
    for (var schema : schemas().properties()) {
      for (JsonNode example : schema.getValue().path("examples")) {
        examples++;
        assertEquals(List.of(), document.faults(schema.getValue(), example), schema.getKey());
      }
    }
    assertTrue(examples > 10, "only " + examples + " examples");
  }

  @Test
  void anAnswerThatLacksAFieldOrHasOneTooManyIsFoundOut() {
    JsonNode schema = schemas().path("Alert");
    ObjectNode lacking = schema.path("examples").path(0).deepCopy();
    lacking.remove("unit");
    assertFalse(document.faults(schema, lacking).isEmpty());
    ObjectNode excess = schema.path("examples").path(0).deepCopy();
    excess.put("colour", "red");
    assertFalse(document.faults(schema, excess).isEmpty());
    ObjectNode wrongTime = schema.path("examples").path(0).deepCopy();
    wrongTime.put("since", "2026-03-04 02:10");
    assertFalse(document.faults(schema, wrongTime).isEmpty());
  }

  @Test
  void everyReferenceLeadsSomewhere() {
    for (JsonNode reference : document.root().findValues("$ref")) {
      assertFalse(
          document.root().at(reference.asText().substring(1)).isMissingNode(), reference.asText());
    }
  }

  private JsonNode schemas() {
    return document.root().path("components").path("schemas");
  }
}
