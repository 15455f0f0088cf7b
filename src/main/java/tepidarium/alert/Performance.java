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
 * Computes the performance figures of the alert system over a span after ANSI/ISA-18.2 and IEC
 * 62682 (figures from memory).
 *
 * <ul>
 *   <li>Rate: alerts raised per day, by container and kind, the most frequent first.
 *   <li>Chattering: the same alert raised at least three times within one minute. Alerts with
 *       delays of minutes cannot chatter. <i>Repeating</i> is the measure for slow quantities such
 *       as temperature: the same alert raised at least three times within three hours (common
 *       practice, no source).
 *   <li>Stale: active for more than 24 hours.
 *   <li>Flood: begins with a ten-minute window with more than ten alerts and ends with the first
 *       window with fewer than five. Windows are fixed and start at the start of the span.
 * </ul>
 *
 * @param span the evaluated time span
 * @param raised number of alerts raised in the span
 * @param perDay alerts raised per day
 * @param mostInTenMinutes highest number in one ten-minute window
 * @param floods flood periods in time order
 * @param groups figures by container and kind, most frequent first
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
   * The figures of one alert kind of one container.
   *
   * @param raised number raised in the span; 0 if only an earlier alert is stale
   * @param share share of all raised alerts, 0 to 1
   * @param stale number of alerts active for more than 24 hours and active in the span
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
   * Computes the figures of a span.
   *
   * @param alerts all alerts that were active in the span; others are ignored
   * @param now end of the active time of alerts that have not returned
   */
  public static Performance of(List<RaisedAlert> alerts, Span span, Instant now) {
    List<RaisedAlert> inside =
        alerts.stream()
            .filter(alert -> span.contains(alert.at()))
            .sorted(Comparator.comparing(RaisedAlert::at))
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

  /** Number of alerts raised in each ten-minute window. */
  private static int[] windows(List<RaisedAlert> inside, Span span) {
    int[] windows = new int[(int) ((span.length().toMillis() + WINDOW_MS - 1) / WINDOW_MS)];
    for (RaisedAlert alert : inside) {
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
      List<RaisedAlert> alerts, Span span, Instant now, int all, double days) {
    Map<Key, List<RaisedAlert>> byKey = new LinkedHashMap<>();
    for (RaisedAlert alert : alerts) {
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
      Key key, List<RaisedAlert> own, Span span, Instant now, int all, double days) {
    List<Instant> times =
        own.stream().map(RaisedAlert::at).filter(span::contains).sorted().toList();
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

  private static boolean stale(RaisedAlert alert, Span span, Instant now) {
    Instant until = alert.returnedAt() == null ? now : alert.returnedAt();
    Instant staleFrom = alert.at().plus(STALE_AFTER);
    return until.isAfter(staleFrom) && staleFrom.isBefore(span.to()) && until.isAfter(span.from());
  }

  /** Whether an alert raised at these ascending times is repeating. */
  static boolean repeating(List<Instant> times) {
    return dense(times, REPEATING_WITHIN);
  }

  /** Whether at least three of the times lie within the duration. */
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
