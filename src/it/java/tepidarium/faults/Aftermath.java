package tepidarium.faults;

import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.awaitility.core.ConditionTimeoutException;

/**
 * What an attack left behind.
 *
 * @param seconds how long the next 20 readings of a good sensor took to be stored; -1 if they were
 *     not
 * @param lost good readings that were acknowledged and are not in the store
 * @param status what health says, in one word
 * @param problems why the service did not withstand the attack; empty if it did
 */
record Aftermath(
    Attack attack, Tries tries, double seconds, long lost, String status, List<String> problems) {
  private static final Duration COUNTED = Duration.ofSeconds(20);

  /** Attacks the service, watches it meanwhile, and looks at it afterwards. */
  static Aftermath of(Attack attack, Target target) {
    Tries tries = new Tries();
    List<String> problems = new ArrayList<>();
    int starts = target.starts();
    long received = Tally.of(target.grower()).received();
    Witness witness = Witness.of(target);
    try (witness) {
      attack.action().run(target, tries);
    } catch (Exception | AssertionError e) {
      problems.add("the attack could not go on: " + e);
    }
    problems.addAll(tries.problems());
    double seconds = goodReadings(target, problems);
    problems.addAll(witness.problems());
    long lost = target.missing() + witness.lost();
    String status = status(target);
    if (lost > 0 && status.equals("up")) {
      problems.add("health says up while " + lost + " acknowledged readings are not stored");
    }
    long atLeast = target.starts() == starts ? received + tries.mustBeCounted() : 0;
    counts(target, atLeast, problems);
    return new Aftermath(attack, tries, seconds, lost, status, List.copyOf(problems));
  }

  private static double goodReadings(Target target, List<String> problems) {
    try {
      double seconds = target.secondsUntilStored();
      if (seconds > Target.goalSeconds()) {
        problems.add(String.format(Locale.ROOT, "good readings took %.1f s", seconds));
      }
      return seconds;
    } catch (IOException | ConditionTimeoutException e) {
      problems.add("20 good readings were not stored: " + firstLine(e));
      return -1;
    }
  }

  private static void counts(Target target, long atLeast, List<String> problems) {
    try {
      await()
          .atMost(COUNTED)
          .until(
              () -> Tally.of(target.grower()),
              tally -> tally.addsUp() && tally.received() >= atLeast);
    } catch (ConditionTimeoutException e) {
      problems.add("the counts do not add up to " + atLeast + " or more: " + firstLine(e));
    } catch (RuntimeException | AssertionError e) {
      problems.add("health does not tell the counts: " + firstLine(e));
    }
  }

  private static String status(Target target) {
    try {
      return target.health().get("status").textValue();
    } catch (RuntimeException | AssertionError e) {
      return "no answer";
    }
  }

  private static String firstLine(Throwable e) {
    return e.toString().lines().findFirst().orElse("");
  }

  boolean met() {
    return problems.isEmpty() && lost == 0;
  }

  /** One line of the table of attacks, in Markdown. */
  String row() {
    String outcome = met() ? "met" : "not met: " + String.join("; ", problems);
    return String.format(
        Locale.ROOT,
        "| %s | %,d | %,d | %,d | %.1f | %s | %s |%n",
        attack.name(),
        tries.tried(),
        tries.handled(),
        lost,
        seconds,
        status,
        outcome.replace('|', '/').replaceAll("[^\\x20-\\x7E]", "?"));
  }
}
