package tepidarium.alert;

import java.time.Duration;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertRuleStore.Decision;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;

/**
 * Provides the effective rule for each container and alert kind: the default rule with its
 * overrides applied. One thread changes rules and writes them to the store first. Any thread may
 * read.
 */
public final class AlertRules {
  private final AlertRuleStore store;
  private final Duration silentAfter;
  private final Map<AlertKey, Decision> decisions;

  /**
   * Loads the overrides from the store.
   *
   * @param silentAfter default time without a message after which a sensor counts as silent
   */
  public AlertRules(AlertRuleStore store, Duration silentAfter) {
    this.store = store;
    this.silentAfter = silentAfter;
    this.decisions = new ConcurrentHashMap<>(store.decisions());
  }

  /** The effective rule. */
  public AlertRule effective(AlertKey key, Band band) {
    return standard(key.kind(), band).with(override(key));
  }

  /** The default rule. */
  public AlertRule standard(AlertKind kind, Band band) {
    return kind.standard(band, silentAfter);
  }

  public RuleOverride override(AlertKey key) {
    return decisions.getOrDefault(key, Decision.NONE).override();
  }

  /** Who took the kind out of service and why; null while it is in service. */
  public @Nullable OutOfService outOfService(AlertKey key) {
    return decisions.getOrDefault(key, Decision.NONE).outOfService();
  }

  public boolean inService(AlertKey key) {
    return outOfService(key) == null;
  }

  void override(AlertKey key, RuleOverride override) {
    put(key, new Decision(override, outOfService(key)));
  }

  void service(AlertKey key, @Nullable OutOfService out) {
    put(key, new Decision(override(key), out));
  }

  private void put(AlertKey key, Decision decision) {
    store.put(key, decision);
    decisions.put(key, decision);
  }

  void forget(ContainerId container) {
    decisions.keySet().removeIf(key -> key.container().equals(container));
  }
}
