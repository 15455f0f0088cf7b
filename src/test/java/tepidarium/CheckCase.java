package tepidarium;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;

/**
 * One case of an independent check file under {@code reference/}. Each carries its own source and
 * how it was verified; both are part of every failure's message.
 */
public record CheckCase(
    String id, JsonNode input, JsonNode expected, double tolerance, String why) {

  /** The cases of one kind; fails when the file has none. */
  public static List<CheckCase> of(String file, String kind) {
    List<CheckCase> found =
        StreamSupport.stream(json(file).path("cases").spliterator(), false)
            .filter(node -> node.path("kind").asText().equals(kind))
            .map(CheckCase::read)
            .toList();
    if (found.isEmpty()) {
      throw new IllegalStateException("no case of kind " + kind + " in " + file);
    }
    return found;
  }

  /** A JSON file under {@code reference/}. */
  public static JsonNode json(String file) {
    try (InputStream in = CheckCase.class.getResourceAsStream("/reference/" + file)) {
      return new ObjectMapper().readTree(in);
    } catch (IOException e) {
      throw new UncheckedIOException(file, e);
    }
  }

  private static CheckCase read(JsonNode node) {
    String why =
        "source: " + node.path("source").asText() + "; verified: " + node.path("verified").asText();
    return new CheckCase(
        node.path("id").asText(),
        node.path("input"),
        node.path("expected"),
        node.path("tolerance").path("abs").asDouble(),
        why);
  }

  public double[] inputs(String name) {
    return Stream.of(input.path(name))
        .flatMap(array -> StreamSupport.stream(array.spliterator(), false))
        .mapToDouble(JsonNode::asDouble)
        .toArray();
  }

  public double expected(String name) {
    JsonNode value = expected.path(name);
    if (!value.isNumber()) {
      throw new IllegalStateException(id + " expects no " + name);
    }
    return value.asDouble();
  }

  /** What to say when an answer differs. */
  public String says(String name) {
    return id + ", " + name + "; " + why;
  }

  @Override
  public String toString() {
    return id;
  }
}
