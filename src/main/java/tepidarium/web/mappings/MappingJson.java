package tepidarium.web.mappings;

import java.time.Instant;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tepidarium.ingest.HeardMessages;
import tepidarium.ingest.MappingRule;
import tepidarium.ingest.MappingStore;
import tepidarium.ingest.MappingTrial;
import tepidarium.ingest.Unit;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.web.ReadingJson;

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

  /**
   * All rules.
   *
   * @param problems the rules whose topics the broker refuses, by topic, with the reason
   */
  record Rules(
      List<MappingRule> configured,
      List<MappingStore.Saved> saved,
      List<QuantityUnits> units,
      Map<String, String> problems) {}

  /** A message without its payload. */
  record MessageJson(Instant at, String topic) {}

  record Messages(List<MessageJson> messages) {
    static Messages of(List<HeardMessages.Heard> heard) {
      return new Messages(
          heard.stream().map(one -> new MessageJson(one.at(), one.topic())).toList());
    }
  }

  /**
   * A rule to try on a message.
   *
   * @param base64 the payload
   */
  record TrialRequest(@Nullable String topic, @Nullable String base64, @Nullable MappingRule rule) {
    MappingRule needRule() {
      if (rule == null) {
        throw new InvalidInput(
            "rule", "is missing: send the mapping rule to try", InputRule.MISSING.with());
      }
      return rule;
    }

    byte[] payload() {
      try {
        return Base64.getDecoder().decode(Objects.requireNonNullElse(base64, ""));
      } catch (IllegalArgumentException e) {
        throw new InvalidInput("base64 must be the payload in base64 (RFC 4648)", e);
      }
    }
  }

  /** The topic of a message, from a body or a query. */
  static String needTopic(@Nullable String topic) {
    if (topic == null || topic.isEmpty()) {
      throw new InvalidInput(
          "topic", "is missing: send the topic of the message", InputRule.MISSING.with());
    }
    return topic;
  }

  record Trial(List<ReadingJson> readings, List<String> problems) {
    static Trial of(MappingTrial trial) {
      return new Trial(trial.readings().stream().map(ReadingJson::of).toList(), trial.problems());
    }
  }
}
