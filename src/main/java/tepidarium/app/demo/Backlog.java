package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.function.Predicate;
import tepidarium.reading.Reading;
import tepidarium.reading.Span;

/**
 * The history as the sensors send it: one array per sensor and day. The newest day comes first, as
 * a node that catches up sends it, so that nobody seems silent while the rest follows. Some arrays
 * are out of order and some come twice, as they do where delivery is at least once.
 */
final class Backlog {
  private static final Duration DAY = Duration.ofDays(1);
  private static final int EVERY_REPEATED = 13;
  private static final int EVERY_SHUFFLED = 11;

  private final Garden garden;
  private final List<Parcel> parcels = new ArrayList<>();
  private final Random order = new Random(7);

  private Backlog(Garden garden) {
    this.garden = garden;
  }

  /** All messages of the history, in the order of sending. */
  static List<Parcel> of(Garden garden) {
    Backlog backlog = new Backlog(garden);
    for (int daysAgo = 0; daysAgo < Almanac.DAYS; daysAgo++) {
      backlog.addDay(daysAgo);
    }
    backlog.addLate();
    return backlog.parcels;
  }

  private void addDay(int daysAgo) {
    Instant end = garden.almanac().now().minus(DAY.multipliedBy(daysAgo));
    for (Node node : garden.nodes()) {
      List<Reading> readings =
          readings(node, new Span(end.minus(DAY), end), at -> !node.faults().lateAt(at));
      int number = parcels.size();
      if (daysAgo > 0 && number % EVERY_SHUFFLED == 0) {
        Collections.shuffle(readings, order);
      }
      add(node, readings);
      if (number % EVERY_REPEATED == 0) {
        add(node, readings);
      }
    }
  }

  private void addLate() {
    Span all = new Span(garden.almanac().start(), garden.almanac().now());
    for (Node node : garden.nodes()) {
      add(node, readings(node, all, node.faults()::lateAt));
    }
  }

  private static List<Reading> readings(Node node, Span span, Predicate<Instant> which) {
    return new ArrayList<>(node.times(span).stream().filter(which).map(node::reading).toList());
  }

  private void add(Node node, List<Reading> readings) {
    if (!readings.isEmpty()) {
      parcels.add(new Parcel(node.sensor(), readings));
    }
  }
}
