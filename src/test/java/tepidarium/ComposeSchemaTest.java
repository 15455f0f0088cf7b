package tepidarium;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.dialect.Dialect;
import com.networknt.schema.dialect.Dialects;
import com.networknt.schema.keyword.NonValidationKeyword;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Validates the file for Compose against the JSON schema of the Compose Specification. */
class ComposeSchemaTest {
  private static final Path FOLDER = Path.of("src/test/resources/compose");

  private static List<Error> errors(Path file) throws IOException {
    Path published = FOLDER.resolve("compose-spec.json");
    ObjectNode schema = (ObjectNode) new ObjectMapper().readTree(Files.readString(published));
    // The validator refuses its address of draft 7 and its relative id. Neither affects the rules.
    schema.remove(List.of("$schema", "$id"));
    Dialect draft7 =
        Dialect.builder(Dialects.getDraft7())
            .keyword(new NonValidationKeyword("deprecated"))
            .build();
    Schema compiled = SchemaRegistry.withDefaultDialect(draft7).getSchema(schema);
    return compiled.validate(new YAMLMapper().readTree(Files.readString(file)));
  }

  @Test
  void theFileKeepsToTheSpecification() throws IOException {
    assertEquals(List.of(), errors(Path.of("docker-compose.yml")));
  }

  @Test
  void mistakesAreFound() throws IOException {
    Set<String> places =
        errors(FOLDER.resolve("wrong.yml")).stream()
            .map(error -> error.getInstanceLocation() + " " + error.getKeyword())
            .collect(Collectors.toSet());

    Set<String> mistakes =
        Set.of(
            "/services/tepidarium additionalProperties",
            "/services/tepidarium/restart type",
            "/services/tepidarium/depends_on/broker/condition enum",
            "/services/broker/build additionalProperties");
    assertTrue(places.containsAll(mistakes), places.toString());
  }
}
