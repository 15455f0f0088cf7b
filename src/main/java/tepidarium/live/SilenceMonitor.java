package tepidarium.live;

import static java.util.Comparator.naturalOrder;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.AlertBoard;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertKind;
import tepidarium.alert.AlertRules;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.Placement;
import tepidarium.container.Register;
import tepidarium.reading.SensorId;

/**
 * Reports to the alert board which containers have a silent sensor. It compares the clock with the
 * time at which each sensor was last heard. A sensor that reports rarely may be quiet for longer
 * than the limit. It reports nothing while the link to the broker is down, and nothing of a sensor
 * whose backlog arrives. Used by the watch thread alone.
 */
final class SilenceMonitor {
  private final Register register;
  private final AlertRules rules;
  private final AlertBoard board;
  private final UsualIntervals intervals;
  private final Duration grace;
  private final Map<SensorId, Instant> lastHeard = new HashMap<>();
  private final Map<SensorId, Instant> lastBacklog = new HashMap<>();
  private final Map<ContainerId, Instant> lastChanged = new HashMap<>();
  private @Nullable Instant listeningSince;
  private boolean storeHasAnswered;

  /**
   * Creates a monitor that has heard no sensor yet.
   *
   * @param intervals how long each sensor may be quiet, if that is longer than the limit
   * @param grace for this time after the link came up, no sensor is reported as silent. The same
   *     holds for a sensor after its last late reading, and for the sensors in a container after a
   *     change of that container
   */
  SilenceMonitor(
      Register register,
      AlertRules rules,
      AlertBoard board,
      UsualIntervals intervals,
      Duration grace) {
    this.register = register;
    this.rules = rules;
    this.board = board;
    this.intervals = intervals;
    this.grace = grace;
  }

  /**
   * Notes that it is known when each sensor in the store was last heard. Before that, a sensor that
   * was not heard yet is not judged.
   */
  void storeAnswered() {
    storeHasAnswered = true;
  }

  void heard(SensorId sensor, Instant at) {
    lastHeard.merge(sensor, at, SilenceMonitor::later);
  }

  /**
   * Adds a late reading. It does not count as heard now, because it may have waited in the broker,
   * but newer readings may follow it.
   *
   * @param now the present time; on a slow computer much later than its arrival
   */
  void backlogArrived(SensorId sensor, Instant measuredAt, Instant now) {
    heard(sensor, measuredAt);
    lastBacklog.merge(sensor, now, SilenceMonitor::later);
  }

  /**
   * Notes that a container or its placements were changed: a sensor that was just placed, from a
   * date in the past on, has not had the time to send.
   */
  void changed(ContainerId container, Instant now) {
    lastChanged.put(container, now);
  }

  void linkUp(Instant now) {
    listeningSince = now;
  }

  void linkDown() {
    listeningSince = null;
  }

  /** After the clock was set back, times that lie in the future become the present time. */
  void clampToNow(Instant now) {
    Instant since = listeningSince;
    if (since != null && since.isAfter(now)) {
      listeningSince = now;
    }
    lastHeard.replaceAll((sensor, at) -> at.isAfter(now) ? now : at);
    lastBacklog.replaceAll((sensor, at) -> at.isAfter(now) ? now : at);
    lastChanged.replaceAll((container, at) -> at.isAfter(now) ? now : at);
  }

  /** Checks all containers. */
  void check(Instant now) {
    intervals.beginRound();
    for (Container container : register.containers()) {
      check(container, now);
    }
  }

  private void check(Container container, Instant now) {
    Instant since = listeningSince;
    List<Placement> placed =
        register.placementsIn(container.id()).stream().filter(p -> p.holdsAt(now)).toList();
    if (placed.isEmpty()) {
      board.unobserved(container.id(), now);
      return;
    }
    if (since == null) {
      return;
    }
    Duration limit = limit(container);
    List<Placement> decided =
        placed.stream().filter(placement -> !isUndecided(placement, limit, now)).toList();
    Instant heard = decided.stream().map(this::heardSincePlaced).min(naturalOrder()).orElse(null);
    if (heard != null && isSilent(heard, limit, now)) {
      Instant begin = later(since, changedAt(container.id()));
      // Within the grace time, silence neither starts an alert nor ends an earlier one.
      boolean withinGrace = Duration.between(begin, now).compareTo(grace) <= 0;
      heard = withinGrace ? null : longestUnusual(decided, limit, now);
    }
    if (heard != null) {
      board.observeSilence(container.id(), container.band(), now, heard);
    }
  }

  /**
   * When the sensor that has been silent longest was heard, see {@link #heardOrExpected}; null if
   * none is silent, but one cannot be judged yet.
   */
  private @Nullable Instant longestUnusual(
      List<Placement> placements, Duration limit, Instant now) {
    List<Instant> known =
        placements.stream()
            .flatMap(placement -> heardOrExpected(placement, limit, now).stream())
            .toList();
    Instant longest = known.stream().min(naturalOrder()).orElse(null);
    boolean all = known.size() == placements.size();
    return longest != null && (all || isSilent(longest, limit, now)) ? longest : null;
  }

  private static boolean isSilent(Instant heard, Duration limit, Instant now) {
    return Duration.between(heard, now).compareTo(limit) > 0;
  }

  /** Whether only late readings of the sensor arrive, so that newer ones may follow. */
  private boolean isUndecided(Placement placement, Duration limit, Instant now) {
    Instant backlog = lastBacklog.get(placement.sensor());
    return backlog != null
        && !now.isAfter(backlog.plus(grace))
        && isSilent(heardSincePlaced(placement), limit, now);
  }

  /**
   * When the sensor was last heard. While it is quiet for no longer than is usual for it, as if it
   * were heard just within the limit. Empty if that is not known yet.
   */
  private Optional<Instant> heardOrExpected(Placement placement, Duration limit, Instant now) {
    Instant heard = heardSincePlaced(placement);
    if (!isSilent(heard, limit, now)) {
      return Optional.of(heard);
    }
    Instant last = lastHeard.get(placement.sensor());
    if (last == null) {
      return storeHasAnswered ? Optional.of(heard) : Optional.empty();
    }
    return intervals
        .quietFor(placement, last)
        .map(usual -> isSilent(heard, usual, now) ? heard : now.minus(limit));
  }

  private Instant heardSincePlaced(Placement placement) {
    Instant heard = lastHeard.get(placement.sensor());
    // A sensor that was never heard has the whole limit to send first, from when it was placed
    // here.
    Instant first = heard == null ? changedAt(placement.container()) : heard;
    return later(first, placement.from());
  }

  private Instant changedAt(ContainerId container) {
    return lastChanged.getOrDefault(container, Instant.MIN);
  }

  private Duration limit(Container container) {
    AlertKey key = new AlertKey(container.id(), AlertKind.SILENT);
    double minutes = rules.effective(key, container.band()).rule().limit().value();
    return Duration.ofMillis(Math.round(minutes * 60_000));
  }

  private static Instant later(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }
}
