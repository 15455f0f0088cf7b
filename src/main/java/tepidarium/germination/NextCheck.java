package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reason;

/**
 * The recommended time of the next check of a seed group, and the reason. All intervals are common
 * practice, no source: each opening lets in light and lets out heat, but without checks mould
 * spreads.
 *
 * @param why reason as text for the grower
 * @param because the parts of the same reason as codes with figures, in their order
 */
public record NextCheck(Instant at, String why, List<Reason> because) {
  static final double WEEK_DAYS = 7;
  static final double ROOTS_DAYS = 4;
  static final double SOONEST_DAYS = 3;
  static final double LATEST_DAYS = 14;

  /**
   * The heat that seeds have received since sowing.
   *
   * @param degreeHours heat in covered time, °C·h, by the base and ceiling of their species
   * @param coveredHours covered time, h, above 0
   */
  public record Pace(double degreeHours, double coveredHours) {}

  public NextCheck {
    because = List.copyOf(because);
  }

  /**
   * Recommends the time of the next check; null if no living seed is left in a container.
   *
   * @param pace heat received by a group that was not checked yet; null if not known
   */
  public static @Nullable NextCheck of(
      Species species, Instant sownAt, GroupState group, @Nullable Pace pace) {
    if (group.living() == 0) {
      return null;
    }
    Instant last = group.checkedAt();
    NextCheck usualCheck = last == null ? first(species, sownAt, pace) : next(species, group, last);
    return group.ungerminated() == 0 ? usualCheck : orGiveUp(species, sownAt, last, usualCheck);
  }

  private static NextCheck next(Species species, GroupState group, Instant last) {
    if (group.germinated() == 0) {
      return new NextCheck(
          after(last, WEEK_DAYS),
          "a week after the last check",
          List.of(Reason.of("week-after-check")));
    }
    Double root = species.value(Trait.ROOT_CM);
    String length = root == null ? "" : format(" of %s cm", root);
    int germinated = group.germinated();
    return new NextCheck(
        after(last, ROOTS_DAYS),
        format("%d germinated, to be potted on with roots%s", germinated, length),
        List.of(
            root == null
                ? Reason.of("pot-on", "germinated", germinated)
                : new Reason("pot-on", Map.of("germinated", germinated, "rootCm", root))));
  }

  private static NextCheck first(Species species, Instant sownAt, @Nullable Pace pace) {
    Double usualDays = species.value(Trait.FIRST_DAYS);
    if (usualDays == null) {
      return new NextCheck(
          after(sownAt, WEEK_DAYS), "a week after sowing", List.of(Reason.of("week-after-sowing")));
    }
    Double expected = expectedDays(species, usualDays, pace);
    double days = expected == null ? usualDays : expected;
    String why =
        expected == null
            ? format("the first usually germinate after %s days", usualDays)
            : format(
                "at the temperatures so far, the first germinate after about %.0f days", expected);
    List<Reason> because = new ArrayList<>();
    because.add(Reason.of(expected == null ? "usual-days" : "expected-days", "days", days));
    double limited = Math.min(LATEST_DAYS, Math.max(SOONEST_DAYS, days));
    if (limited < days) {
      why += format(", but check for mould after %s days", limited);
      because.add(Reason.of("check-mould", "days", limited));
    }
    return new NextCheck(after(sownAt, limited), why, because);
  }

  /**
   * Expected days to the first germination. The usual days are those at the optimum temperature. At
   * another temperature they grow by the ratio of the heat per hour at the optimum to the actual
   * heat per hour. Never less than the usual days.
   */
  private static @Nullable Double expectedDays(
      Species species, double usualDays, @Nullable Pace pace) {
    Double base = species.value(Trait.BASE);
    Double optimum = species.value(Trait.OPTIMUM);
    if (base == null || optimum == null || pace == null || pace.degreeHours() <= 0) {
      return null;
    }
    double gainAtOptimum = optimum - base;
    double gain = pace.degreeHours() / pace.coveredHours();
    return usualDays * Math.max(1, gainAtOptimum / gain);
  }

  private static NextCheck orGiveUp(
      Species species, Instant sownAt, @Nullable Instant last, NextCheck usualCheck) {
    Double days = species.value(Trait.GIVE_UP_DAYS);
    if (days == null) {
      return usualCheck;
    }
    Instant giveUp = after(sownAt, days);
    if (last != null && !last.isBefore(giveUp)) {
      List<Reason> because = new ArrayList<>(usualCheck.because());
      because.add(Reason.of("days-over", "days", days));
      return new NextCheck(
          usualCheck.at(),
          format("%s; the usual %s days are over: continue or stop?", usualCheck.why(), days),
          because);
    }
    return usualCheck.at().isBefore(giveUp)
        ? usualCheck
        : new NextCheck(
            giveUp,
            format("after %s days growers usually give up the remaining seeds", days),
            List.of(Reason.of("give-up", "days", days)));
  }

  private static Instant after(Instant start, double days) {
    return start.plus(Freshness.days(days).truncatedTo(java.time.temporal.ChronoUnit.SECONDS));
  }

  private static String format(String format, Object... values) {
    return String.format(Locale.ROOT, format, values).replace(".0 ", " ");
  }

  /** The time until the check; negative if it is overdue. */
  public Duration from(Instant now) {
    return Duration.between(now, at);
  }
}
