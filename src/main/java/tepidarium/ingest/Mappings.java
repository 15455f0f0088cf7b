package tepidarium.ingest;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * All mapping rules: those of the settings first, then the saved ones, the oldest first. A change
 * takes effect at once. Thread-safe.
 */
public final class Mappings {
  private static final int MAX_SAVED = 100;

  private final List<MappingRule> configured;
  private final MappingStore store;
  private final Decoder decoder;
  private final HeardMessages heard;
  private volatile Runnable listener = () -> {};
  private volatile Refusals refusals = filter -> null;

  /** Returns why the broker does not deliver the topics of a filter; null if it does. */
  @FunctionalInterface
  public interface Refusals {
    @Nullable String of(String filter);
  }

  /** Reads the saved rules and gives all rules to the decoder. */
  public Mappings(
      List<MappingRule> configured, MappingStore store, Decoder decoder, HeardMessages heard) {
    this.configured = List.copyOf(configured);
    this.store = store;
    this.decoder = decoder;
    this.heard = heard;
    apply();
  }

  /** Sets what to call after each change of the rules. */
  public void onChange(Runnable changed) {
    listener = changed;
  }

  /** Sets where to ask for the topic filters that the broker refuses. */
  public void refusedBy(Refusals refusals) {
    this.refusals = refusals;
  }

  /** The rules whose topics the broker refuses, by topic, with the reason. */
  public Map<String, String> problems() {
    Map<String, String> problems = new LinkedHashMap<>();
    for (String topic : topics()) {
      String reason = refusals.of(TopicPattern.of(topic).filter());
      if (reason != null) {
        problems.put(topic, reason);
      }
    }
    return problems;
  }

  public List<MappingRule> configured() {
    return configured;
  }

  public List<MappingStore.Saved> saved() {
    return store.all();
  }

  private List<String> topics() {
    return all().map(MappingRule::topic).toList();
  }

  private Stream<MappingRule> all() {
    return Stream.concat(configured.stream(), store.all().stream().map(MappingStore.Saved::rule));
  }

  private void apply() {
    decoder.setRules(all().toList());
  }

  /** Reads a message by a rule, without storing anything. */
  public MappingTrial trial(MappingRule rule, String topic, byte[] payload, Instant at) {
    MappingTrial trial =
        decoder.tryRule(rule, new Message(topic, payload, MessageDelivery.LIVE, at));
    MappingRule earlier = earlier(topic);
    if (earlier == null || trial.readings().isEmpty()) {
      return trial;
    }
    List<String> problems = new ArrayList<>(trial.problems());
    problems.add(
        "the rule for "
            + Text.quote(earlier.topic())
            + " reads this topic already, and the first rule counts. Delete that rule first");
    return new MappingTrial(trial.readings(), problems);
  }

  /** The rule that reads a topic now; null if there is none. */
  private @Nullable MappingRule earlier(String topic) {
    List<String> levels = TopicPattern.levels(topic);
    return all()
        .filter(rule -> TopicPattern.of(rule.topic()).sensorIn(levels) != null)
        .findFirst()
        .orElse(null);
  }

  /**
   * Saves a rule, which holds from the next message on.
   *
   * @throws InvalidInput if there is a rule with the same topic, or too many
   */
  public MappingStore.Saved add(MappingRule rule, Instant at) {
    MappingStore.Saved added;
    synchronized (this) {
      List<String> topics = topics();
      if (topics.contains(rule.topic())) {
        throw new InvalidInput(
            "there is a rule for " + Text.quote(rule.topic()) + " already. Delete that rule first",
            InputRule.TAKEN.with(rule.topic()));
      }
      if (topics.size() - configured.size() >= MAX_SAVED) {
        throw new InvalidInput(
            "there are " + MAX_SAVED + " saved rules. Delete one that is not needed",
            InputRule.FULL.with(MAX_SAVED));
      }
      added = store.add(rule, at);
      apply();
    }
    heard.forget(TopicPattern.of(rule.topic()));
    listener.run();
    return added;
  }

  /** Deletes a saved rule. Returns whether there was one. */
  public boolean remove(long id) {
    boolean removed;
    synchronized (this) {
      removed = store.remove(id);
      apply();
    }
    listener.run();
    return removed;
  }
}
