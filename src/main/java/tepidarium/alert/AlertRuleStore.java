package tepidarium.alert;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Keeps what somebody decided about alerts. What a method wrote has reached the disk. */
public interface AlertRuleStore {
  /**
   * A decision about one kind in one container.
   *
   * @param outOfService null while in service
   */
  record Decision(RuleOverride override, @Nullable OutOfService outOfService) {
    /** Nothing decided. */
    static final Decision NONE = new Decision(RuleOverride.NONE, null);
  }

  Map<AlertKey, Decision> decisions();

  /** Replaces the decision; does nothing when the container is no more. */
  void put(AlertKey key, Decision decision);
}
