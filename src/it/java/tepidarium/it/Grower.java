package tepidarium.it;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;

/** What a grower does with the API, in short. */
public record Grower(Api api) {
  private static final int MAX_POINTS = 5_000;

  /** Waits until the service listens to its broker; what is sent before may reach nobody. */
  public void awaitBroker() {
    await().atMost(Duration.ofMinutes(3)).until(() -> part("broker").startsWith("up"));
  }

  /** A new container with the usual band; its id. */
  public String container(String name) {
    return container(name, "");
  }

  /**
   * A new container; its id.
   *
   * @param more further fields, each with a comma in front
   */
  public String container(String name, String more) {
    String body = "{\"name\":\"" + name + "\",\"kind\":\"bag\"" + more + "}";
    return api.post("/api/containers", body).get("id").textValue();
  }

  /** Puts a sensor into a container from then on. */
  public void place(String sensor, String container, Instant from) {
    api.put(
        "/api/sensors/" + sensor + "/placement",
        "{\"container\":\"" + container + "\",\"from\":\"" + from + "\"}");
  }

  /** The values of a quantity by time; they must lie further apart than a 5,000th of the span. */
  public Map<Instant, Double> values(String container, String quantity, Instant from, Instant to) {
    String query = "?from=" + from + "&to=" + to + "&points=" + MAX_POINTS;
    JsonNode series = api.get("/api/containers/" + container + "/readings" + query).get(quantity);
    Map<Instant, Double> values = new TreeMap<>();
    for (int i = 0; i < series.get("at").size(); i++) {
      JsonNode value = series.get("mean").get(i);
      if (!value.isNull()) {
        values.put(Instant.parse(series.get("at").get(i).textValue()), value.doubleValue());
      }
    }
    return values;
  }

  /** One of the service's counts, by its name. */
  public long count(String name) {
    return api.get("/api/health").get("counts").get(name).longValue();
  }

  /**
   * A count once no reading waits, as the start of an exact comparison. A reading can be queried a
   * moment before it is counted as stored.
   */
  public long settledCount(String name) {
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> api.get("/api/health").get("counts"), Grower::isSettled);
    return count(name);
  }

  private static boolean isSettled(JsonNode counts) {
    return Stream.of("stored", "repeated", "rejected")
            .mapToLong(name -> counts.get(name).longValue())
            .sum()
        == counts.get("received").longValue();
  }

  /** The state of a part of the service, with its words. */
  public String part(String name) {
    JsonNode part = api.get("/api/health").get("parts").get(name);
    return part.get("status").textValue() + ": " + part.get("detail").textValue();
  }

  /** Waits until the part that stores the readings is in a state, with these words about it. */
  public void awaitReadingsPart(Duration limit, String beginning, String words) {
    await()
        .atMost(limit)
        .untilAsserted(
            () -> {
              String part = part("readings");
              assertTrue(part.startsWith(beginning) && part.contains(words), part);
            });
  }

  /** The reasons of the newest rejects of a topic, newest first. */
  public List<String> rejects(String topic) {
    List<String> reasons = new ArrayList<>();
    for (JsonNode line : api.get("/api/rejects?limit=1000").get("rejects")) {
      if (line.get("topic").textValue().equals(topic)) {
        reasons.add(line.get("reason").textValue());
      }
    }
    return reasons;
  }
}
