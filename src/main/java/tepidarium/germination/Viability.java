package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.LogisticLine;

/**
 * How the part of seeds that still germinates falls with the days between gathering and sowing: a
 * logistic curve over the grower's own sowings of one species. Only sowings whose outcome is final
 * count, and of those only seeds that somebody looked at. Sowings of one lot within the same day
 * are one group; see {@link LogisticLine} for how groups that differ widen the intervals.
 *
 * @param groups that count, by days
 * @param notFinal sowings that do not count yet
 * @param curve null where the record does not tell it
 * @param reason why not; null where it does
 */
public record Viability(
    List<Group> groups, int notFinal, @Nullable LogisticLine curve, @Nullable String reason) {
  /** Six weeks, after which growers usually give up; common practice, no source. */
  static final double USUAL_GIVE_UP_DAYS = 42;

  private static final int FEWEST_DAYS = 3;

  /**
   * Where lots differ, intervals from 3 or 4 groups held the truth in 56 to 92 % of simulations,
   * from 5 groups in 93 to 97 %.
   */
  private static final int FEWEST_GROUPS = 5;

  /**
   * A sowing of a lot.
   *
   * @param days from gathering to sowing, at least 0
   */
  public record Kept(long lot, double days, SowingTimeline timeline) {}

  /** Seeds of one lot that were sown after the same days. */
  public record Group(long lot, double days, int germinated, int seeds) {}

  /** The part that still germinates after some days, with its 95 % interval. */
  public record Estimate(double days, double fraction, ConfidenceInterval limits) {}

  public Viability {
    groups = List.copyOf(groups);
  }

  /**
   * Over the sowings of one species.
   *
   * @param giveUpDays after which its remaining seeds are given up; null for the usual 42 days
   */
  public static Viability of(List<Kept> sowings, @Nullable Double giveUpDays) {
    double giveUp = giveUpDays == null ? USUAL_GIVE_UP_DAYS : giveUpDays;
    Map<List<Long>, List<Group>> byDay = new TreeMap<>(Viability::compare);
    int notFinal = 0;
    for (Kept kept : sowings) {
      if (!isFinal(kept.timeline().data(), giveUp)) {
        notFinal++;
        continue;
      }
      Group group = group(kept);
      if (group.seeds() > 0) {
        long day = (long) Math.floor(group.days());
        byDay.computeIfAbsent(List.of(day, kept.lot()), any -> new ArrayList<>()).add(group);
      }
    }
    List<Group> groups = byDay.values().stream().map(Viability::together).toList();
    return of(groups, notFinal);
  }

  private static int compare(List<Long> a, List<Long> b) {
    int byDay = Long.compare(a.get(0), b.get(0));
    return byDay != 0 ? byDay : Long.compare(a.get(1), b.get(1));
  }

  private static Viability of(List<Group> groups, int notFinal) {
    long days =
        groups.stream().mapToLong(group -> (long) Math.floor(group.days())).distinct().count();
    if (days < FEWEST_DAYS || groups.size() < FEWEST_GROUPS) {
      return none(
          groups,
          notFinal,
          String.format(
              Locale.ROOT,
              "it takes %d finished sowings or more, after %d different numbers of days since"
                  + " gathering or more; there %s %d, after %d",
              FEWEST_GROUPS,
              FEWEST_DAYS,
              groups.size() == 1 ? "is" : "are",
              groups.size(),
              days));
    }
    LogisticLine line =
        LogisticLine.of(
                groups.stream()
                    .map(g -> new LogisticLine.Group(g.days(), g.germinated(), g.seeds()))
                    .toList())
            .orElse(null);
    if (line == null) {
      return none(
          groups,
          notFinal,
          "all or none germinated, or the counts change from all to none between two days, so the"
              + " slope has no end");
    }
    if (!(line.slopeLimits().high() < 0)) {
      return none(groups, notFinal, "these sowings do not show that fewer germinate with the days");
    }
    return new Viability(groups, notFinal, line, null);
  }

  private static Viability none(List<Group> groups, int notFinal, String reason) {
    return new Viability(groups, notFinal, null, reason);
  }

  /** Whether every seed that was looked at germinated, was culled, or was watched long enough. */
  private static boolean isFinal(GerminationData data, double giveUpDays) {
    return data.lookedAt() > 0
        && data.rows().stream()
            .filter(row -> row.fate() == GerminationData.Fate.REMAINING && row.from() > 0)
            .allMatch(row -> row.from() >= giveUpDays);
  }

  /** Seeds taken out for another purpose say nothing of whether they would have germinated. */
  private static Group group(Kept kept) {
    GerminationData data = kept.timeline().data();
    int taken = 0;
    for (SowingTimeline.Step step : kept.timeline().steps()) {
      if (step.entry().act() instanceof Act.Checked check) {
        taken +=
            check.culled().stream()
                .filter(line -> line.reason() == CullReason.TAKEN && !line.germinated())
                .mapToInt(Culled::count)
                .sum();
      }
    }
    return new Group(
        kept.lot(),
        kept.days(),
        data.count(GerminationData.Fate.GERMINATED),
        data.lookedAt() - taken);
  }

  private static Group together(List<Group> groups) {
    int germinated = groups.stream().mapToInt(Group::germinated).sum();
    int seeds = groups.stream().mapToInt(Group::seeds).sum();
    double days = groups.stream().mapToDouble(g -> g.seeds() * g.days()).sum() / seeds;
    return new Group(groups.get(0).lot(), days, germinated, seeds);
  }

  /** Null outside of the days after which seeds were sown, or where there is no curve. */
  public @Nullable Estimate after(double days) {
    if (curve == null || days > longestDays() || days < shortestDays()) {
      return null;
    }
    return new Estimate(days, curve.at(days), curve.limitsAt(days));
  }

  /** The fewest days after which any group was sown; 0 for none. */
  public double shortestDays() {
    return groups.stream().mapToDouble(Group::days).min().orElse(0);
  }

  /** The most days after which any group was sown; 0 for none. */
  public double longestDays() {
    return groups.stream().mapToDouble(Group::days).max().orElse(0);
  }
}
