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
 * What a rule would have raised over stored readings, and the smallest change of it that would have
 * avoided repetition. The readings run through the very {@link Condition} that watches live.
 */
public final class Replay {
  /** By how much a setting is made larger, the smallest first. */
  private static final double[] FACTORS = {1.5, 2, 3, 4, 6, 8};

  private static final Duration SHORTEST_DELAY = Duration.ofMinutes(2);

  /**
   * A rule that would have repeated itself less.
   *
   * @param rule the changed rule
   * @param changed which one of its settings was changed
   * @param before how often the present rule would have raised
   * @param after how often the changed one would have
   */
  public record Advice(Rule rule, Setting changed, int before, int after) {}

  /** The settings of a rule, in the order in which a change costs the grower least. */
  public enum Setting {
    /** Returns later; nothing is raised later. */
    DEADBAND,
    /** Returns later; nothing is raised later. */
    OFF_DELAY,
    /** Raises later: the last resort. */
    ON_DELAY
  }

  private record Candidate(Rule rule, Setting setting, double factor) {}

  private Replay() {}

  /** When the rule would have raised, in order. */
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
   * The smallest change that avoids repetition (see {@link Performance}): of the deadband or the
   * off-delay by the least factor, and only where none of them helps of the on-delay. Empty when
   * the rule does not repeat itself, or when no change helps, or only one that would raise nothing
   * at all.
   *
   * @param smallestDeadband tried first where the rule has none, in the unit of the quantity
   */
  public static Optional<Advice> advice(
      Samples samples, Rule rule, Duration maxGap, double smallestDeadband) {
    List<Instant> present = raised(samples, rule, maxGap);
    if (!Performance.repeating(present)) {
      return Optional.empty();
    }
    for (Candidate candidate : candidates(rule, smallestDeadband)) {
      List<Instant> then = raised(samples, candidate.rule(), maxGap);
      if (!then.isEmpty() && !Performance.repeating(then)) {
        return Optional.of(
            new Advice(candidate.rule(), candidate.setting(), present.size(), then.size()));
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

  /** Lux and percent do not fall below nothing: such a deadband would never let go. */
  private static boolean reachable(Limit limit, double deadband) {
    return limit.side() == Limit.Side.LOW || limit.value() - deadband >= 0;
  }

  /** Two decimals are finer than any sensor. */
  private static double tidy(double deadband) {
    return Math.round(deadband * 100) / 100.0;
  }

  private static Duration longer(Duration delay, double factor) {
    double seconds = Math.max((double) delay.toSeconds(), SHORTEST_DELAY.toSeconds() / FACTORS[0]);
    return Duration.ofSeconds(Math.round(seconds * factor));
  }
}
