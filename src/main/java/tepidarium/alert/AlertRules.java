package tepidarium.alert;

import java.time.Duration;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertRuleStore.Decision;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.reading.Quantity;

/**
 * Provides the effective rule for each container and alert kind: the default rule with its
 * overrides applied. A default deadband is raised to the error that remains after a calibration, at
 * most threefold. A value that returns is then inside in spite of this error. One thread changes
 * rules and writes them to the store first. Any thread may read.
 */
public final class AlertRules {
  /** A larger deadband could keep an alert of a narrow band for ever. */
  private static final double MAX_DEADBAND_RATIO = 3;

  private final AlertRuleStore store;
  private final Duration silentAfter;
  private final RemainingError remainingError;
  private final Map<AlertKey, Decision> decisions;

  /**
   * Loads the overrides from the store.
   *
   * @param silentAfter default time without a message after which a sensor counts as silent
   */
  public AlertRules(AlertRuleStore store, Duration silentAfter, RemainingError remainingError) {
    this.store = store;
    this.silentAfter = silentAfter;
    this.remainingError = remainingError;
    this.decisions = new ConcurrentHashMap<>(store.decisions());
  }

  /**
   * The effective rule. A deadband that was set for the container stays as it is. A default one is
   * raised to the remaining error, at most threefold, and at most to the middle of the band.
   */
  public AlertRule effective(AlertKey key, Band band) {
    RuleOverride override = override(key);
    AlertRule rule = standard(key.kind(), band).with(override);
    Quantity quantity = key.kind().quantity();
    double own = rule.rule().deadband();
    if (quantity == null || own == 0 || override.deadband() != null) {
      return rule;
    }
    double error = remainingError.of(key.container(), quantity, rule.rule().limit().value());
    double most = Math.min(MAX_DEADBAND_RATIO * own, room(key.kind(), band));
    double deadband = Math.max(own, Math.min(error, most));
    return deadband == own ? rule : rule.withDeadband(deadband);
  }

  /** The largest deadband with which a value can return and still be inside the other limit. */
  private static double room(AlertKind kind, Band band) {
    return switch (kind) {
      case COLD, HOT -> (band.temperatureHighC() - band.temperatureLowC()) / 2;
      case DRY -> 100 - band.humidityLowPercent();
      default -> Double.POSITIVE_INFINITY;
    };
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
