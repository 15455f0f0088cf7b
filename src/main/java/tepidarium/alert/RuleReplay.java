package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import tepidarium.heat.Limit;
import tepidarium.reading.Samples;

/**
 * Replays stored readings against a rule. Finds when the rule would have raised an alert, and the
 * smallest change of the rule that avoids repeated alerts. Uses the same {@link Condition} as live
 * monitoring.
 */
public final class RuleReplay {
  /** Factors by which a setting is increased, smallest first. */
  private static final double[] FACTORS = {1.5, 2, 3, 4, 6, 8};

  private static final Duration MIN_DELAY = Duration.ofMinutes(2);

  /**
   * A changed rule with fewer repeated alerts.
   *
   * @param rule the changed rule
   * @param changed which one of its settings was changed
   * @param before number of alerts with the present rule
   * @param after number of alerts with the changed rule
   */
  public record Suggestion(Rule rule, Setting changed, int before, int after) {}

  /** The settings of a rule, ordered by the cost of a change for the grower, lowest cost first. */
  public enum Setting {
    /** Returns later; nothing is raised later. */
    DEADBAND,
    /** Returns later; nothing is raised later. */
    OFF_DELAY,
    /** Raises later; tried last. */
    ON_DELAY
  }

  private record Candidate(Rule rule, Setting setting, double factor) {}

  private RuleReplay() {}

  /** The times at which the rule would have raised an alert, ascending. */
  public static List<Instant> raised(Samples samples, Rule rule, Duration maxGap) {
    List<Instant> raised = new ArrayList<>();
    Condition condition = Condition.UNKNOWN;
    for (int i = 0; i < samples.size(); i++) {
      Instant at = Instant.ofEpochMilli(samples.atMs(i));
      Condition next = condition.after(rule, maxGap, at, samples.value(i));
      if (next.active() && !condition.active()) {
        raised.add(at);
      }
      condition = next;
    }
    return raised;
  }

  /**
   * Finds the smallest change that avoids repeated alerts (see {@link Performance}). Tries the
   * deadband and the off-delay first, by increasing factor, then the on-delay. Empty if the rule
   * does not repeat, if no change helps, or if a change would suppress all alerts.
   *
   * @param smallestDeadband first deadband to try if the rule has none, in the unit of the quantity
   */
  public static Optional<Suggestion> advice(
      Samples samples, Rule rule, Duration maxGap, double smallestDeadband) {
    List<Instant> present = raised(samples, rule, maxGap);
    if (!Performance.repeating(present)) {
      return Optional.empty();
    }
    for (Candidate candidate : candidates(rule, smallestDeadband)) {
      List<Instant> then = raised(samples, candidate.rule(), maxGap);
      if (!then.isEmpty() && !Performance.repeating(then)) {
        return Optional.of(
            new Suggestion(candidate.rule(), candidate.setting(), present.size(), then.size()));
      }
    }
    return Optional.empty();
  }

  private static List<Candidate> candidates(Rule rule, double smallestDeadband) {
    List<Candidate> candidates = new ArrayList<>();
    for (double factor : FACTORS) {
      double deadband = tidy(Math.max(rule.deadband(), smallestDeadband / FACTORS[0]) * factor);
      if (reachable(rule.limit(), deadband)) {
        candidates.add(
            new Candidate(
                new Rule(rule.limit(), deadband, rule.onDelay(), rule.offDelay()),
                Setting.DEADBAND,
                factor));
      }
      candidates.add(
          new Candidate(
              new Rule(
                  rule.limit(), rule.deadband(), rule.onDelay(), longer(rule.offDelay(), factor)),
              Setting.OFF_DELAY,
              factor));
      candidates.add(
          new Candidate(
              new Rule(
                  rule.limit(), rule.deadband(), longer(rule.onDelay(), factor), rule.offDelay()),
              Setting.ON_DELAY,
              factor));
    }
    candidates.sort(
        Comparator.comparing((Candidate candidate) -> candidate.setting() == Setting.ON_DELAY)
            .thenComparing(Candidate::factor)
            .thenComparing(Candidate::setting));
    return candidates;
  }

  /**
   * Whether a value can reach the return level. Lux and percent cannot be negative, so with a too
   * large deadband the alert would never return.
   */
  private static boolean reachable(Limit limit, double deadband) {
    return limit.side() == Limit.Side.LOW || limit.value() - deadband >= 0;
  }

  /** Rounds to two decimals, which is finer than any sensor resolves. */
  private static double tidy(double deadband) {
    return Math.round(deadband * 100) / 100.0;
  }

  private static Duration longer(Duration delay, double factor) {
    double seconds = Math.max((double) delay.toSeconds(), MIN_DELAY.toSeconds() / FACTORS[0]);
    return Duration.ofSeconds(Math.round(seconds * factor));
  }
}
