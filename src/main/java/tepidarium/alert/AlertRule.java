package tepidarium.alert;

import org.jspecify.annotations.Nullable;
import tepidarium.heat.Limit;

/** A rule with the priority of its alerts. */
public record AlertRule(Rule rule, Priority priority) {
  /** Returns this rule with the override applied. */
  AlertRule with(RuleOverride override) {
    Double limit = override.limit();
    Limit changed = limit == null ? rule.limit() : new Limit(rule.limit().side(), limit);
    return new AlertRule(
        new Rule(
            changed,
            or(override.deadband(), rule.deadband()),
            or(override.onDelay(), rule.onDelay()),
            or(override.offDelay(), rule.offDelay())),
        or(override.priority(), priority));
  }

  AlertRule withDeadband(double deadband) {
    return new AlertRule(
        new Rule(rule.limit(), deadband, rule.onDelay(), rule.offDelay()), priority);
  }

  private static <T> T or(@Nullable T value, T otherwise) {
    return value == null ? otherwise : value;
  }
}
