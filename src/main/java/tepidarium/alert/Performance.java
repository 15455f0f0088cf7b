package tepidarium.alert;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tepidarium.container.ContainerId;
import tepidarium.reading.Span;

/**
 * How an alert system does over a span: the performance figures of ANSI/ISA-18.2 and IEC 62682
 * (values from memory, as the standard's figures below).
 *
 * <ul>
 *   <li>Rate: alerts raised per day, by container and kind, the most frequent first.
 *   <li>Chattering: the same alert raised three times or more within one minute. With delays of
 *       minutes none of ours can; so <i>repeating</i>, the same three times or more within three
 *       hours, is the measure for slow things like warmth (common practice, no source).
 *   <li>Stale: active for more than 24 hours.
 *   <li>Flood: begins with a window of ten minutes with more than ten alerts, ends with the first
 *       one with fewer than five. The windows are fixed, counted from the start of the span.
 * </ul>
 *
 * @param span over which the alerts are counted
 * @param raised how many were raised in it
 * @param perDay the same for each day
 * @param mostInTenMinutes the most in one window
 * @param floods in order
 * @param groups by container and kind, the most frequent first
 */
public record Performance(
    Span span,
    int raised,
    double perDay,
    int mostInTenMinutes,
    List<Span> floods,
    List<Group> groups) {
  private static final long WINDOW_MS = Duration.ofMinutes(10).toMillis();
  private static final int FLOOD_ABOVE = 10;
  private static final int FLOOD_OVER_BELOW = 5;
  private static final int CHATTER_COUNT = 3;
  private static final Duration CHATTER_WITHIN = Duration.ofMinutes(1);
  private static final Duration REPEATING_WITHIN = Duration.ofHours(3);
  private static final Duration STALE_AFTER = Duration.ofHours(24);
  private static final double MS_PER_DAY = 86_400_000.0;

  /**
   * The alerts of one kind of one container.
   *
   * @param raised how many of them were raised in the span; 0 where one raised before is stale
   * @param share of all that were raised, 0 to 1
   * @param stale how many were active for more than 24 hours, some of it in the span
   */
  public record Group(
      ContainerId container,
      AlertKind kind,
      int raised,
      double perDay,
      double share,
      boolean chattering,
      boolean repeating,
      int stale) {}

  private record Key(ContainerId container, AlertKind kind) {}

  public Performance {
    floods = List.copyOf(floods);
    groups = List.copyOf(groups);
  }

  /**
   * The figures of a span.
   *
   * @param alerts all that were active for some of the span; others do no harm
   * @param now until which an alert that has not returned has been active
   */
  public static Performance of(List<Raised> alerts, Span span, Instant now) {
    List<Raised> inside =
        alerts.stream()
            .filter(alert -> span.contains(alert.at()))
            .sorted(Comparator.comparing(Raised::at))
            .toList();
    int[] windows = windows(inside, span);
    int most = 0;
    for (int count : windows) {
      most = Math.max(most, count);
    }
    double days = span.length().toMillis() / MS_PER_DAY;
    return new Performance(
        span,
        inside.size(),
        rate(inside.size(), days),
        most,
        floods(windows, span),
        groups(alerts, span, now, inside.size(), days));
  }

  private static double rate(int count, double days) {
    return days > 0 ? count / days : 0;
  }

  /** How many were raised in each window of ten minutes. */
  private static int[] windows(List<Raised> inside, Span span) {
    int[] windows = new int[(int) ((span.length().toMillis() + WINDOW_MS - 1) / WINDOW_MS)];
    for (Raised alert : inside) {
      windows[(int) ((alert.at().toEpochMilli() - span.fromMs()) / WINDOW_MS)]++;
    }
    return windows;
  }

  private static List<Span> floods(int[] windows, Span span) {
    List<Span> floods = new ArrayList<>();
    int start = -1;
    for (int i = 0; i < windows.length; i++) {
      if (start < 0 && windows[i] > FLOOD_ABOVE) {
        start = i;
      } else if (start >= 0 && windows[i] < FLOOD_OVER_BELOW) {
        floods.add(flood(start, i, span));
        start = -1;
      }
    }
    if (start >= 0) {
      floods.add(flood(start, windows.length, span));
    }
    return floods;
  }

  private static Span flood(int first, int end, Span span) {
    long from = span.fromMs() + first * WINDOW_MS;
    return Span.ofMillis(from, Math.min(span.toMs(), span.fromMs() + end * WINDOW_MS));
  }

  private static List<Group> groups(
      List<Raised> alerts, Span span, Instant now, int all, double days) {
    Map<Key, List<Raised>> byKey = new LinkedHashMap<>();
    for (Raised alert : alerts) {
      byKey
          .computeIfAbsent(new Key(alert.container(), alert.kind()), key -> new ArrayList<>())
          .add(alert);
    }
    List<Group> groups = new ArrayList<>();
    byKey.forEach(
        (key, own) -> {
          Group group = group(key, own, span, now, all, days);
          if (group.raised() > 0 || group.stale() > 0) {
            groups.add(group);
          }
        });
    groups.sort(
        Comparator.comparing(Group::raised)
            .reversed()
            .thenComparing(group -> group.container().value())
            .thenComparing(Group::kind));
    return groups;
  }

  private static Group group(
      Key key, List<Raised> own, Span span, Instant now, int all, double days) {
    List<Instant> times = own.stream().map(Raised::at).filter(span::contains).sorted().toList();
    int stale = (int) own.stream().filter(alert -> stale(alert, span, now)).count();
    return new Group(
        key.container(),
        key.kind(),
        times.size(),
        rate(times.size(), days),
        all == 0 ? 0 : (double) times.size() / all,
        dense(times, CHATTER_WITHIN),
        dense(times, REPEATING_WITHIN),
        stale);
  }

  private static boolean stale(Raised alert, Span span, Instant now) {
    Instant until = alert.returnedAt() == null ? now : alert.returnedAt();
    Instant staleFrom = alert.at().plus(STALE_AFTER);
    return until.isAfter(staleFrom) && staleFrom.isBefore(span.to()) && until.isAfter(span.from());
  }

  /** Whether the same alert, raised at these ascending times, repeats itself too fast. */
  static boolean repeating(List<Instant> times) {
    return dense(times, REPEATING_WITHIN);
  }

  /** Whether it was raised three times or more within the time. */
  static boolean dense(List<Instant> times, Duration within) {
    for (int i = CHATTER_COUNT - 1; i < times.size(); i++) {
      Duration taken = Duration.between(times.get(i - CHATTER_COUNT + 1), times.get(i));
      if (taken.compareTo(within) <= 0) {
        return true;
      }
    }
    return false;
  }

  static boolean chattering(List<Instant> times) {
    return dense(times, CHATTER_WITHIN);
  }
}
