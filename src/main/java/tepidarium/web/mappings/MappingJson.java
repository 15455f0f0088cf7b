package tepidarium.web.mappings;

import java.time.Instant;
import java.util.Arrays;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.HeardMessages;
import tepidarium.ingest.MappingRule;
import tepidarium.ingest.MappingStore;
import tepidarium.ingest.MappingTrial;
import tepidarium.ingest.Unit;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;

/** The JSON of mapping rules. */
final class MappingJson {
  private MappingJson() {}

  /**
   * The units in which a device may send a quantity.
   *
   * @param quantity its name, such as {@code temperature}
   */
  record QuantityUnits(String quantity, List<String> units) {
    static List<QuantityUnits> all() {
      return Arrays.stream(Quantity.values())
          .map(quantity -> new QuantityUnits(quantity.key(), Unit.symbols(quantity)))
          .toList();
    }
  }

  record Rules(
      List<MappingRule> configured, List<MappingStore.Saved> saved, List<QuantityUnits> units) {}

  record Messages(List<HeardMessages.Heard> messages) {}

  /**
   * A rule to try on a message.
   *
   * @param base64 the payload
   */
  record TrialRequest(@Nullable String topic, @Nullable String base64, @Nullable MappingRule rule) {
    MappingRule needRule() {
      if (rule == null) {
        throw new InvalidInput("rule", "is missing: send the mapping rule to try");
      }
      return rule;
    }

    String needTopic() {
      if (topic == null || topic.isEmpty()) {
        throw new InvalidInput("topic", "is missing: send the topic of the message");
      }
      return topic;
    }

    byte[] payload() {
      try {
        return Base64.getDecoder().decode(Objects.requireNonNullElse(base64, ""));
      } catch (IllegalArgumentException e) {
        throw new InvalidInput("base64 must be the payload in base64 (RFC 4648)", e);
      }
    }
  }

  record ReadingJson(String sensor, Instant at, Map<String, Double> values) {
    static ReadingJson of(Reading reading) {
      Map<String, Double> values = new LinkedHashMap<>();
      reading.values().forEach((quantity, value) -> values.put(quantity.key(), value));
      return new ReadingJson(reading.sensor().name(), reading.at(), values);
    }
  }

  record Trial(List<ReadingJson> readings, List<String> problems) {
    static Trial of(MappingTrial trial) {
      return new Trial(trial.readings().stream().map(ReadingJson::of).toList(), trial.problems());
    }
  }
}
