package tepidarium.stats;

import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.StreamSupport;
import tepidarium.CheckCase;

/** Reads rows of intervals out of the check files. */
public final class CheckRows {
  private CheckRows() {}

  /** Whole cases of a kind, with all their tolerances. */
  public static List<JsonNode> cases(String file, String kind) {
    List<JsonNode> found =
        StreamSupport.stream(CheckCase.json(file).path("cases").spliterator(), false)
            .filter(node -> node.path("kind").asText().equals(kind))
            .toList();
    assertFalse(found.isEmpty(), "no case of kind " + kind);
    return found;
  }

  /** The rows of a case; of one group where a group is named. */
  public static List<Censored> rows(JsonNode rows, String group) {
    List<Censored> read = new ArrayList<>();
    for (JsonNode row : rows) {
      if (group.isEmpty() || group.equals(row.path("group").asText())) {
        double right =
            row.path("right").isNull() ? Double.POSITIVE_INFINITY : row.path("right").asDouble();
        read.add(new Censored(row.path("left").asDouble(), right, row.path("count").asInt()));
      }
    }
    return read;
  }

  /** The dishes of the two crops by their name, such as "wheat 10". */
  public static Map<String, List<Censored>> twoCrops() {
    Map<String, List<Censored>> dishes = new LinkedHashMap<>();
    try (InputStream in =
        CheckRows.class.getResourceAsStream("/reference/germination/two-crops.csv")) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      text.lines()
          .skip(1)
          .map(line -> line.split(",", -1))
          .forEach(
              cell ->
                  dishes
                      .computeIfAbsent(cell[0] + ' ' + cell[1], name -> new ArrayList<>())
                      .add(
                          new Censored(
                              Double.parseDouble(cell[2]),
                              cell[3].isEmpty()
                                  ? Double.POSITIVE_INFINITY
                                  : Double.parseDouble(cell[3]),
                              Integer.parseInt(cell[4]))));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return dishes;
  }
}
