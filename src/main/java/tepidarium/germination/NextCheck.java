package tepidarium.germination;

import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * When to look at a seed group next, and why. Weekly is common practice, no source, and so are the
 * other intervals here: every opening lets light in and warmth out, but mould spreads while nobody
 * looks.
 */
public record NextCheck(Instant at, String why) {
  static final double WEEK_DAYS = 7;
  static final double ROOTS_DAYS = 4;
  static final double SOONEST_DAYS = 3;
  static final double LATEST_DAYS = 14;

  /**
   * The heat that the seeds have received since they were sown.
   *
   * @param degreeHours over covered time, °C·h, with the base and ceiling of their species
   * @param coveredHours above 0
   */
  public record Pace(double degreeHours, double coveredHours) {}

  /**
   * When to look next; null when no seed is left in a container.
   *
   * @param pace of a group that was not checked yet; null where not known
   */
  public static @Nullable NextCheck of(
      Species species, Instant sownAt, GroupState group, @Nullable Pace pace) {
    if (group.living() == 0) {
      return null;
    }
    Instant last = group.checkedAt();
    NextCheck usual = last == null ? first(species, sownAt, pace) : next(species, group, last);
    return group.ungerminated() == 0 ? usual : orGiveUp(species, sownAt, last, usual);
  }

  private static NextCheck next(Species species, GroupState group, Instant last) {
    if (group.germinated() == 0) {
      return new NextCheck(after(last, WEEK_DAYS), "a week after the last check");
    }
    Double root = species.value(Trait.ROOT_CM);
    String length = root == null ? "" : format(" of %s cm", root);
    return new NextCheck(
        after(last, ROOTS_DAYS),
        format("%d germinated, to be potted on with roots%s", group.germinated(), length));
  }

  private static NextCheck first(Species species, Instant sownAt, @Nullable Pace pace) {
    Double usual = species.value(Trait.FIRST_DAYS);
    if (usual == null) {
      return new NextCheck(after(sownAt, WEEK_DAYS), "a week after sowing");
    }
    Double expected = expectedDays(species, usual, pace);
    double days = expected == null ? usual : expected;
    String why =
        expected == null
            ? format("the first usually germinate after %s days", usual)
            : format("at the warmth so far the first germinate after about %.0f days", expected);
    double kept = Math.min(LATEST_DAYS, Math.max(SOONEST_DAYS, days));
    if (kept < days) {
      why += format(", but look for mould after %s days", kept);
    }
    return new NextCheck(after(sownAt, kept), why);
  }

  /**
   * The usual days to the first germination are those at the optimum. Heat above the base adds up,
   * so that at another warmth they are longer by as much as each hour gives less.
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
      Species species, Instant sownAt, @Nullable Instant last, NextCheck usual) {
    Double days = species.value(Trait.GIVE_UP_DAYS);
    if (days == null) {
      return usual;
    }
    Instant giveUp = after(sownAt, days);
    if (last != null && !last.isBefore(giveUp)) {
      return new NextCheck(
          usual.at(), format("%s; the usual %s days are over: go on or stop?", usual.why(), days));
    }
    return usual.at().isBefore(giveUp)
        ? usual
        : new NextCheck(giveUp, format("after %s days it is usual to give up the rest", days));
  }

  private static Instant after(Instant start, double days) {
    return start.plus(Freshness.days(days).truncatedTo(java.time.temporal.ChronoUnit.SECONDS));
  }

  private static String format(String format, Object... values) {
    return String.format(Locale.ROOT, format, values).replace(".0 ", " ");
  }

  /** How long it is still to go; negative when it should have been. */
  public Duration from(Instant now) {
    return Duration.between(now, at);
  }
}
