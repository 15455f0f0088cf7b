package tepidarium.access;

import java.time.Instant;
import java.util.List;
import java.util.regex.Pattern;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * An account with which sensors log in to the embedded broker.
 *
 * @param name user name, 1 to 64 of {@code A-Z a-z 0-9 _ -}
 * @param passwordHash hash of the password, see {@link Secret}
 * @param topics topic filters to which it may publish
 * @param reads topic filters that it may read
 */
public record SensorAccount(
    String name, String passwordHash, List<String> topics, List<String> reads, Instant createdAt) {
  static final int MAX_TOPICS = 20;
  static final int MAX_TOPIC_CHARACTERS = 200;

  private static final Pattern NAME = Pattern.compile("[A-Za-z0-9_-]{1,64}");
  private static final Pattern FILTER =
      Pattern.compile("(#|(\\+|[^/+#$][^/+#]*)(/(\\+|[^/+#]+))*(/#)?)");

  public SensorAccount {
    if (!NAME.matcher(name).matches()) {
      throw new InvalidInput(
          "name",
          "must be 1 to 64 of A-Z a-z 0-9 _ -",
          InputRule.CHARACTERS.with("A-Z a-z 0-9 _ -", 64));
    }
    topics = checked("topics", topics);
    reads = checked("reads", reads);
    if (topics.isEmpty() && reads.isEmpty()) {
      throw new InvalidInput(
          "topics", "must have at least one topic", InputRule.COUNT.with(1, MAX_TOPICS));
    }
  }

  private static List<String> checked(String field, List<String> filters) {
    if (filters.size() > MAX_TOPICS) {
      throw new InvalidInput(
          field,
          "must have at most " + MAX_TOPICS + " topics",
          InputRule.COUNT.with(null, MAX_TOPICS));
    }
    for (String filter : filters) {
      if (!isFilter(filter)
          || filter.length() > MAX_TOPIC_CHARACTERS
          || filter.chars().anyMatch(Character::isISOControl)) {
        throw new InvalidInput(
            field,
            "must be MQTT topics, with + for one level and # at the end for all below, each at most "
                + MAX_TOPIC_CHARACTERS
                + " characters",
            InputRule.TOPICS.with(MAX_TOPIC_CHARACTERS));
      }
    }
    return List.copyOf(filters);
  }

  /** Whether it is a topic, or a topic filter of MQTT that does not begin with $. */
  public static boolean isFilter(String text) {
    return FILTER.matcher(text).matches();
  }

  /** Whether it is the password of this account. */
  public boolean hasPassword(String password) {
    return Secret.matches(password, passwordHash);
  }

  SensorAccount withPasswordHash(String hash) {
    return new SensorAccount(name, hash, topics, reads, createdAt);
  }

  SensorAccount withTopics(List<String> newTopics, List<String> newReads) {
    return new SensorAccount(name, passwordHash, newTopics, newReads, createdAt);
  }

  /** Leaves out the hash, because this text may be logged. */
  @Override
  public String toString() {
    return "SensorAccount[" + name + ", " + topics + ", " + reads + ']';
  }
}
