package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import tepidarium.alert.Transition.What;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;

/** What holds for every sequence of readings, whatever the rule, and wherever the process ends. */
class AlertBoardProperties {
  private static final ContainerId JAR = new ContainerId("jar");
  private static final AlertKey KEY = new AlertKey(JAR, AlertKind.COLD);
  private static final Duration GAP = Duration.ofMinutes(30);
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");
  private static final double LIMIT_C = Band.DEFAULT.temperatureLowC();

  /** What happens right after a reading. */
  private enum Then {
    NOTHING,
    ACKNOWLEDGED,
    /** The process ends after the reading was judged. */
    KILLED,
    /** The process ends after the reading was stored and before it was judged. */
    KILLED_BEFORE_IT_WAS_JUDGED
  }

  private record Step(int minutesLater, double temperatureC, Then then) {}

  private record Stored(Instant at, double temperatureC) {}

  @Provide
  Arbitrary<List<Step>> steps() {
    return Combinators.combine(
            Arbitraries.frequencyOf(
                net.jqwik.api.Tuple.of(20, Arbitraries.integers().between(1, 15)),
                net.jqwik.api.Tuple.of(1, Arbitraries.integers().between(16, 90))),
            Arbitraries.doubles().between(LIMIT_C - 1, LIMIT_C + 1),
            Arbitraries.of(Then.class))
        .as(Step::new)
        .list()
        .ofMaxSize(120);
  }

  @Provide
  Arbitrary<RuleOverride> overrides() {
    Arbitrary<Duration> delays = Arbitraries.integers().between(0, 45).map(Duration::ofMinutes);
    return Combinators.combine(Arbitraries.doubles().between(0, 0.8), delays, delays)
        .as((deadband, on, off) -> new RuleOverride(null, deadband, on, off, null));
  }

  /** A board with its store, which can end at any moment and start again. */
  private static final class Site {
    private final MemoryAlerts store = new MemoryAlerts();
    private final List<Stored> stored = new ArrayList<>();
    private final boolean mortal;
    private AlertBoard board;

    Site(RuleOverride override, boolean mortal) {
      this.mortal = mortal;
      this.board = start();
      board.change(JAR, Map.of(AlertKind.COLD, new RuleChange(override, null)), "A", null, START);
    }

    private AlertBoard start() {
      AlertRules rules = new AlertRules(store, GAP, RemainingError.NONE);
      return new AlertBoard(store, rules, GAP, (before, after, transition) -> {});
    }

    void follow(List<Step> steps) {
      Instant now = START;
      for (int i = 0; i < steps.size(); i++) {
        Step step = steps.get(i);
        if (mortal && step.minutesLater() > 15) {
          // The clock goes on between readings, and with it what is saved every few seconds.
          board.tick(now);
        }
        now = now.plus(Duration.ofMinutes(step.minutesLater()));
        Stored reading = new Stored(now, step.temperatureC());
        stored.add(reading);
        if (!mortal || step.then() != Then.KILLED_BEFORE_IT_WAS_JUDGED) {
          judge(reading);
        }
        if (mortal && i % 3 == 0) {
          board.tick(now);
        }
        boolean killed =
            step.then() == Then.KILLED || step.then() == Then.KILLED_BEFORE_IT_WAS_JUDGED;
        if (mortal && killed) {
          board = start();
          catchUp(now.minus(Duration.ofHours(1)));
        }
        if (step.then() == Then.ACKNOWLEDGED) {
          acknowledge(now);
        }
      }
      board.save();
    }

    private void judge(Stored reading) {
      Observation sign = Observation.value(AlertKind.COLD, reading.at(), reading.temperatureC());
      board.observe(JAR, Band.DEFAULT, sign, reading.at());
    }

    /** As the service does at its start, from the store of readings. */
    private void catchUp(Instant from) {
      stored.stream().filter(reading -> !reading.at().isBefore(from)).forEach(this::judge);
    }

    private void acknowledge(Instant now) {
      board.open().forEach(alert -> board.acknowledge(alert.id(), "A", now));
    }
  }

  private static Site followed(RuleOverride override, List<Step> steps, boolean mortal) {
    Site site = new Site(override, mortal);
    site.follow(steps);
    return site;
  }

  @Property
  void theEndOfTheProcessAtAnyMomentChangesNothing(
      @ForAll("overrides") RuleOverride override, @ForAll("steps") List<Step> steps) {
    Site whole = followed(override, steps, false);
    Site broken = followed(override, steps, true);
    assertEquals(whole.store.transitions(), broken.store.transitions());
    assertEquals(whole.board.open(), broken.board.open());
    AlertFilter all = new AlertFilter(null, null, null, 1_000);
    assertEquals(whole.store.history(all), broken.store.history(all));
  }

  @Property
  void raisedAndReturnedNoticesAlternate(
      @ForAll("overrides") RuleOverride override, @ForAll("steps") List<Step> steps) {
    What last = What.RETURNED;
    for (Transition transition : followed(override, steps, true).store.transitions()) {
      if (transition.what() != What.ACKNOWLEDGED) {
        assertTrue(transition.what() == What.RAISED || transition.what() == What.RETURNED);
        assertTrue(transition.what() != last, () -> "twice in a row: " + transition);
        last = transition.what();
      }
    }
  }

  @Property
  void aNoticeNeedsReadingsOutsideDuringItsWholeDelay(
      @ForAll("overrides") RuleOverride override, @ForAll("steps") List<Step> steps) {
    Site site = followed(override, steps, true);
    Rule rule =
        new AlertRules(site.store, GAP, RemainingError.NONE).effective(KEY, Band.DEFAULT).rule();
    for (Transition transition : site.store.transitions()) {
      boolean raised = transition.what() == What.RAISED;
      if (raised || transition.what() == What.RETURNED) {
        Instant from = transition.at().minus(raised ? rule.onDelay() : rule.offDelay());
        for (Stored reading : between(site.stored, from, transition.at())) {
          double value = reading.temperatureC();
          assertTrue(
              raised ? value < LIMIT_C : value >= LIMIT_C + rule.deadband() - 1e-9,
              () -> transition + " in spite of " + reading);
        }
      }
    }
  }

  private static List<Stored> between(List<Stored> stored, Instant from, Instant to) {
    return stored.stream()
        .filter(reading -> !reading.at().isBefore(from) && !reading.at().isAfter(to))
        .toList();
  }

  @Property
  void twoNoticesAreNeverCloserThanTheDelays(
      @ForAll("overrides") RuleOverride override, @ForAll("steps") List<Step> steps) {
    Site site = followed(override, steps, true);
    Rule rule =
        new AlertRules(site.store, GAP, RemainingError.NONE).effective(KEY, Band.DEFAULT).rule();
    Transition last = null;
    for (Transition next : site.store.transitions()) {
      if (next.what() == What.ACKNOWLEDGED) {
        continue;
      }
      if (last != null) {
        Duration delay = next.what() == What.RAISED ? rule.onDelay() : rule.offDelay();
        assertTrue(Duration.between(last.at(), next.at()).compareTo(delay) >= 0);
      }
      last = next;
    }
  }
}
