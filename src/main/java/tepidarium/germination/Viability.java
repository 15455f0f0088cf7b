package tepidarium.germination;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reason;
import tepidarium.stats.ConfidenceInterval;
import tepidarium.stats.LogisticLine;

/**
 * Fits the viability curve of a species: the germinating fraction by the days from gathering to
 * sowing, as a logistic curve over the grower's own sowings. Only sowings with a final outcome are
 * used, and only their checked seeds. Sowings of one lot on the same day are one group. {@link
 * LogisticLine} describes how differences between groups widen the intervals.
 *
 * @param groups groups that are used, by days
 * @param notFinal number of sowings whose outcome is not final
 * @param curve null if the record does not identify it
 * @param reason why it is not identified; null if it is
 * @param because the same as a code with figures; null if it is
 */
public record Viability(
    List<Group> groups,
    int notFinal,
    @Nullable LogisticLine curve,
    @Nullable String reason,
    @Nullable Reason because) {
  /** Growers usually give up after 42 days; common practice, no source. */
  static final double USUAL_GIVE_UP_DAYS = 42;

  private static final int MIN_DIFFERENT_DAYS = 3;

  /**
   * Least number of groups. If lots differ, 95 % intervals from 3 or 4 groups contained the true
   * value in 56 to 92 % of simulations, from 5 groups in 93 to 97 %.
   */
  private static final int MIN_GROUPS = 5;

  /**
   * A sowing with the storage time of its seeds.
   *
   * @param days from gathering to sowing, at least 0
   */
  public record Kept(long lot, double days, SowingTimeline timeline) {}

  /** Checked seeds of one lot that were sown after the same number of days. */
  public record Group(long lot, double days, int germinated, int seeds) {}

  /** The germinating fraction after some days of storage, with its 95 % interval. */
  public record Estimate(double days, double fraction, ConfidenceInterval limits) {}

  public Viability {
    groups = List.copyOf(groups);
  }

  /**
   * Fits the curve over the sowings of one species.
   *
   * @param giveUpDays days after which remaining seeds are given up; null for 42 days
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
    List<Group> groups = byDay.values().stream().map(Viability::merged).toList();
    return of(groups, notFinal);
  }

  private static int compare(List<Long> a, List<Long> b) {
    int byDay = Long.compare(a.get(0), b.get(0));
    return byDay != 0 ? byDay : Long.compare(a.get(1), b.get(1));
  }

  private static Viability of(List<Group> groups, int notFinal) {
    long days =
        groups.stream().mapToLong(group -> (long) Math.floor(group.days())).distinct().count();
    if (days < MIN_DIFFERENT_DAYS || groups.size() < MIN_GROUPS) {
      return none(
          groups,
          notFinal,
          String.format(
              Locale.ROOT,
              "at least %d finished sowings are needed, with at least %d "
                  + "different numbers of days since gathering; there %s %d, with %d",
              MIN_GROUPS,
              MIN_DIFFERENT_DAYS,
              groups.size() == 1 ? "is" : "are",
              groups.size(),
              days),
          new Reason(
              "few-sowings",
              Map.of(
                  "neededSowings",
                  MIN_GROUPS,
                  "neededDays",
                  MIN_DIFFERENT_DAYS,
                  "sowings",
                  groups.size(),
                  "days",
                  days)));
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
          "all or no seeds germinated, or germination changes from "
              + "all to none between two days: the slope is not identified",
          Reason.of("no-slope"));
    }
    if (!(line.slopeLimits().high() < 0)) {
      return none(
          groups,
          notFinal,
          "these sowings do not show that germination falls with the days since gathering",
          Reason.of("no-fall"));
    }
    return new Viability(groups, notFinal, line, null, null);
  }

  private static Viability none(List<Group> groups, int notFinal, String reason, Reason because) {
    return new Viability(groups, notFinal, null, reason, because);
  }

  /** Whether every checked seed germinated, was culled, or was watched until it is given up. */
  private static boolean isFinal(GerminationData data, double giveUpDays) {
    return data.lookedAt() > 0
        && data.rows().stream()
            .filter(row -> row.fate() == GerminationData.Fate.REMAINING && row.from() > 0)
            .allMatch(row -> row.from() >= giveUpDays);
  }

  /** The counts of a sowing, without seeds that were removed for another purpose. */
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

  private static Group merged(List<Group> groups) {
    int germinated = groups.stream().mapToInt(Group::germinated).sum();
    int seeds = groups.stream().mapToInt(Group::seeds).sum();
    double days = groups.stream().mapToDouble(g -> g.seeds() * g.days()).sum() / seeds;
    return new Group(groups.get(0).lot(), days, germinated, seeds);
  }

  /**
   * The germinating fraction after some days; null outside the range of the data or without a
   * curve.
   */
  public @Nullable Estimate after(double days) {
    if (curve == null || days > longestDays() || days < shortestDays()) {
      return null;
    }
    return new Estimate(days, curve.at(days), curve.limitsAt(days));
  }

  /** The shortest storage of any group, days; 0 if there are no groups. */
  public double shortestDays() {
    return groups.stream().mapToDouble(Group::days).min().orElse(0);
  }

  /** The longest storage of any group, days; 0 if there are no groups. */
  public double longestDays() {
    return groups.stream().mapToDouble(Group::days).max().orElse(0);
  }
}
