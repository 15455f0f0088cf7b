package tepidarium.alert;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Stores rule overrides and kinds out of service. Each write is durable when the method returns.
 */
public interface AlertRuleStore {
  /**
   * The stored settings of one alert kind in one container.
   *
   * @param outOfService null while the kind is in service
   */
  record Decision(RuleOverride override, @Nullable OutOfService outOfService) {
    /** All defaults. */
    static final Decision NONE = new Decision(RuleOverride.NONE, null);
  }

  Map<AlertKey, Decision> decisions();

  /** Replaces the stored settings; does nothing if the container has been deleted. */
  void put(AlertKey key, Decision decision);
}
