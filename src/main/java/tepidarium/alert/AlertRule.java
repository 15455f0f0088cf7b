package tepidarium.alert;

import org.jspecify.annotations.Nullable;
import tepidarium.heat.Limit;

/** When a condition becomes active and returns, and how much it matters. */
public record AlertRule(Rule rule, Priority priority) {
  /** This rule, with what the override says in place of its own. */
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

  private static <T> T or(@Nullable T value, T otherwise) {
    return value == null ? otherwise : value;
  }
}
