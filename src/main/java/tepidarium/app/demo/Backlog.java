package tepidarium.app.demo;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import java.util.stream.Stream;
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
  private final Random order = new Random(7);
  private int number;

  private Backlog(Garden garden) {
    this.garden = garden;
  }

  /** The messages of the history in the order of sending, a day's at a time to save memory. */
  static Stream<List<SensorMessage>> of(Garden garden) {
    Backlog backlog = new Backlog(garden);
    return Stream.concat(
        IntStream.range(0, DemoCalendar.DAYS).mapToObj(backlog::day),
        Stream.of(1).map(last -> backlog.late()));
  }

  private List<SensorMessage> day(int daysAgo) {
    Instant end = garden.calendar().now().minus(DAY.multipliedBy(daysAgo));
    Span day = new Span(end.minus(DAY), end);
    List<SensorMessage> messages = new ArrayList<>();
    for (SimulatedSensor node : garden.nodes()) {
      List<Reading> readings = readings(node, day, at -> !node.faults().lateAt(at));
      if (!readings.isEmpty()) {
        number++;
        if (daysAgo > 0 && number % EVERY_SHUFFLED == 0) {
          Collections.shuffle(readings, order);
        }
        messages.add(new SensorMessage(node.sensor(), readings, false));
        if (number % EVERY_REPEATED == 0) {
          messages.add(new SensorMessage(node.sensor(), readings, true));
        }
      }
    }
    return messages;
  }

  private List<SensorMessage> late() {
    Span all = new Span(garden.calendar().start(), garden.calendar().now());
    return garden.nodes().stream()
        .map(
            node ->
                new SensorMessage(node.sensor(), readings(node, all, node.faults()::lateAt), false))
        .filter(message -> !message.readings().isEmpty())
        .toList();
  }

  private static List<Reading> readings(SimulatedSensor node, Span span, Predicate<Instant> which) {
    return new ArrayList<>(node.times(span).stream().filter(which).map(node::reading).toList());
  }
}
