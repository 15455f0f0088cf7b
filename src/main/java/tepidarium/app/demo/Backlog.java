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
 * Creates the messages of the history: one array per sensor and day. The newest day comes first, so
 * that no sensor seems silent while the older days follow. Some arrays are out of order and some
 * are sent twice, as can happen with at-least-once delivery.
 */
final class Backlog {
  private static final Duration DAY = Duration.ofDays(1);
  private static final int MESSAGES_PER_DUPLICATE = 13;
  private static final int MESSAGES_PER_SHUFFLE = 11;

  private final Garden garden;
  private final Random random = new Random(7);
  private int messageNumber;

  private Backlog(Garden garden) {
    this.garden = garden;
  }

  /**
   * Returns the messages of the history in the order of sending. They are created one day at a time
   * to save memory.
   */
  static Stream<List<SensorMessage>> of(Garden garden) {
    Backlog backlog = new Backlog(garden);
    return Stream.concat(
        IntStream.range(0, DemoCalendar.DAYS).mapToObj(backlog::messagesOfDay),
        Stream.of(1).map(last -> backlog.lateMessages()));
  }

  private List<SensorMessage> messagesOfDay(int daysAgo) {
    Instant end = garden.calendar().now().minus(DAY.multipliedBy(daysAgo));
    Span day = new Span(end.minus(DAY), end);
    List<SensorMessage> messages = new ArrayList<>();
    for (SimulatedSensor sensor : garden.sensors()) {
      List<Reading> readings = readings(sensor, day, at -> !sensor.faults().isLate(at));
      if (!readings.isEmpty()) {
        messageNumber++;
        if (daysAgo > 0 && messageNumber % MESSAGES_PER_SHUFFLE == 0) {
          Collections.shuffle(readings, random);
        }
        messages.add(new SensorMessage(sensor.id(), readings, false));
        if (messageNumber % MESSAGES_PER_DUPLICATE == 0) {
          messages.add(new SensorMessage(sensor.id(), readings, true));
        }
      }
    }
    return messages;
  }

  private List<SensorMessage> lateMessages() {
    Span all = new Span(garden.calendar().start(), garden.calendar().now());
    return garden.sensors().stream()
        .map(
            sensor ->
                new SensorMessage(
                    sensor.id(), readings(sensor, all, sensor.faults()::isLate), false))
        .filter(message -> !message.readings().isEmpty())
        .toList();
  }

  private static List<Reading> readings(
      SimulatedSensor sensor, Span span, Predicate<Instant> condition) {
    return new ArrayList<>(
        sensor.times(span).stream().filter(condition).map(sensor::reading).toList());
  }
}
