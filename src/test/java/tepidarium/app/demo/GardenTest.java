package tepidarium.app.demo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.ingest.Decoder;
import tepidarium.ingest.Message;
import tepidarium.ingest.MessageDelivery;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Span;

/** Whatever the hour and the zone, the invented history has the shapes that it is there to show. */
class GardenTest {
  private static final int MAX_PAYLOAD_BYTES = 4 << 20;

  /** Also a day when clocks changed within the history, and a moment inside the leak. */
  static List<Arguments> moments() {
    return List.of(
        Arguments.of(Instant.parse("2026-02-20T13:30:00.123Z"), ZoneId.of("UTC")),
        Arguments.of(Instant.parse("2026-04-05T22:10:00Z"), ZoneId.of("Europe/Berlin")),
        Arguments.of(Instant.parse("2026-04-06T00:00:01Z"), ZoneId.of("Pacific/Auckland")),
        Arguments.of(Instant.parse("2026-07-01T01:20:00Z"), ZoneId.of("Asia/Kolkata")));
  }

  private static SimulatedSensor sensor(Garden garden, String name) {
    return garden.sensors().stream()
        .filter(sensor -> sensor.id().name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static List<SensorMessage> messages(Garden garden) {
    return Backlog.of(garden).flatMap(List::stream).toList();
  }

  private static List<Reading> readings(Garden garden, String name, Span span) {
    SimulatedSensor sensor = sensor(garden, name);
    return sensor.times(span).stream().map(sensor::reading).toList();
  }

  private static Span before(Garden garden, int fromDays, int toDays) {
    Instant now = garden.calendar().now();
    return new Span(now.minus(Duration.ofDays(fromDays)), now.minus(Duration.ofDays(toDays)));
  }

  private static Span night(Garden garden, int daysAgo) {
    return new Span(
        garden.calendar().at(daysAgo, LocalTime.of(1, 30)),
        garden.calendar().at(daysAgo, LocalTime.of(6, 30)));
  }

  private static double value(Reading reading, Quantity quantity) {
    return Objects.requireNonNull(reading.value(quantity), () -> quantity + " is missing");
  }

  private static DoubleSummaryStatistics over(
      List<Reading> readings, ToDoubleFunction<Reading> value) {
    return readings.stream().mapToDouble(value).summaryStatistics();
  }

  private static DoubleSummaryStatistics temperature(List<Reading> readings) {
    return over(readings, reading -> value(reading, Quantity.TEMPERATURE));
  }

  private static DoubleSummaryStatistics humidity(List<Reading> readings) {
    return over(readings, reading -> value(reading, Quantity.HUMIDITY));
  }

  @ParameterizedTest
  @MethodSource("moments")
  void theSameNowGivesTheSameReadings(Instant now, ZoneId zone) {
    Stream<List<SensorMessage>> once = Backlog.of(Garden.of(new DemoCalendar(now, zone))).limit(3);
    Stream<List<SensorMessage>> again = Backlog.of(Garden.of(new DemoCalendar(now, zone))).limit(3);
    assertEquals(once.toList(), again.toList());
  }

  @ParameterizedTest
  @MethodSource("moments")
  void aWeekLaterTheShapeIsTheSame(Instant now, ZoneId zone) {
    Duration week = Duration.ofDays(7);
    Garden early = Garden.of(new DemoCalendar(now.minus(week), ZoneId.of("UTC")));
    Garden late = Garden.of(new DemoCalendar(now, ZoneId.of("UTC")));
    List<Reading> a = readings(early, "shed-room", before(early, 28, 0));
    List<Reading> b = readings(late, "shed-room", before(late, 28, 0));
    assertEquals(a.size(), b.size());
    for (int i = 0; i < a.size(); i++) {
      assertEquals(a.get(i).at().plus(week), b.get(i).at());
      assertEquals(a.get(i).value(Quantity.TEMPERATURE), b.get(i).value(Quantity.TEMPERATURE));
    }
  }

  @ParameterizedTest
  @MethodSource("moments")
  void theCupboardIsWarmUntilItsHeatingFails(Instant now, ZoneId zone) {
    Garden garden = Garden.of(new DemoCalendar(now, zone));
    for (String jar : List.of("shed-jar-1", "shed-jar-2", "shed-jar-3")) {
      double coldest = temperature(readings(garden, jar, night(garden, 9))).getMin();
      assertTrue(coldest > 23 && coldest < 26, jar + " fell to " + coldest);
      DoubleSummaryStatistics other = temperature(readings(garden, jar, night(garden, 8)));
      assertTrue(other.getMin() > 29.5 && other.getMax() < 33, jar + " was " + other);
    }
  }

  @ParameterizedTest
  @MethodSource("moments")
  void theHeatMatSwings(Instant now, ZoneId zone) {
    Garden garden = Garden.of(new DemoCalendar(now, zone));
    List<Reading> day = readings(garden, "shed-tray-1", before(garden, 2, 1));
    DoubleSummaryStatistics mat = temperature(day);
    assertEquals(1.6, mat.getMax() - mat.getMin(), 0.6);
    assertTrue(mat.getMin() > 29.5 && mat.getMax() < 34, "outside the band: " + mat);
  }

  @ParameterizedTest
  @MethodSource("moments")
  void theRoomFollowsTheDay(Instant now, ZoneId zone) {
    Garden garden = Garden.of(new DemoCalendar(now, zone));
    DoubleSummaryStatistics room =
        temperature(readings(garden, "shed-room", before(garden, 28, 0)));
    assertTrue(room.getMin() > 14.5 && room.getMin() < 16, "coldest " + room.getMin());
    assertTrue(room.getMax() > 20 && room.getMax() < 21.5, "warmest " + room.getMax());
  }

  @ParameterizedTest
  @MethodSource("moments")
  void oneTrayDriesOut(Instant now, ZoneId zone) {
    Garden garden = Garden.of(new DemoCalendar(now, zone));
    DoubleSummaryStatistics then = humidity(readings(garden, "shed-tray-1", before(garden, 8, 7)));
    assertTrue(then.getMin() > 94, "dry too early: " + then);
    Instant end = garden.calendar().now();
    Span lastHour = new Span(end.minus(Duration.ofHours(1)), end);
    List<Reading> news = readings(garden, "shed-tray-1", lastHour);
    assertEquals(12, news.size());
    assertEquals(76, humidity(news).getAverage(), 2);
    assertTrue(humidity(news).getMax() < 79, "not dry: " + humidity(news));
    Set<String> wet = new HashSet<>(Set.of("shed-jar-1", "shed-tray-2", "shed-box-1"));
    wet.forEach(name -> assertTrue(humidity(readings(garden, name, lastHour)).getMin() > 90, name));
  }

  @ParameterizedTest
  @MethodSource("moments")
  void oneLidLeaksAtDawn(Instant now, ZoneId zone) {
    Garden garden = Garden.of(new DemoCalendar(now, zone));
    for (int daysAgo = 1; daysAgo <= 12; daysAgo++) {
      Instant dawn = garden.calendar().at(daysAgo, LocalTime.of(6, 30));
      List<Reading> lit =
          readings(garden, "shed-box-1", new Span(dawn, dawn.plus(Duration.ofMinutes(40))));
      assertEquals(8, lit.size());
      DoubleSummaryStatistics light = over(lit, r -> value(r, Quantity.LIGHT));
      assertTrue(light.getMin() >= 3, "too dark: " + light);
      assertTrue(light.getMax() > 10 && light.getMax() <= 25, "too bright: " + light);
    }
    assertEquals(0, lightOutsideChecks(garden, "shed-box-1", before(garden, 28, 13)));
    assertEquals(0, lightOutsideChecks(garden, "shed-tray-2", before(garden, 28, 0)));
  }

  private static double lightOutsideChecks(Garden garden, String name, Span span) {
    List<Span> checks = checks(garden);
    return readings(garden, name, span).stream()
        .filter(reading -> checks.stream().noneMatch(check -> check.contains(reading.at())))
        .mapToDouble(reading -> value(reading, Quantity.LIGHT))
        .max()
        .orElse(0);
  }

  private static List<Span> checks(Garden garden) {
    return garden.containers().stream()
        .flatMap(p -> p.checks().stream())
        .map(ContainerCheck::span)
        .toList();
  }

  @ParameterizedTest
  @MethodSource("moments")
  void everyCheckLetsLightInAndWarmthOut(Instant now, ZoneId zone) {
    Garden garden = Garden.of(new DemoCalendar(now, zone));
    for (SimulatedContainer container : garden.containers()) {
      assertEquals(4, container.checks().size());
      SimulatedSensor sensor = container.sensors().get(0);
      for (ContainerCheck check : container.checks()) {
        List<Reading> lit =
            sensor.times(check.span()).stream()
                .map(sensor::reading)
                .filter(reading -> value(reading, Quantity.LIGHT) >= 150)
                .toList();
        assertFalse(lit.isEmpty(), container.name() + " shows nothing of " + check);
        assertTrue(check.illuminanceLux() <= 400);
      }
    }
    List<ContainerCheck> one =
        List.of(new ContainerCheck(new Span(now, now.plus(ContainerCheck.LENGTH)), 200));
    assertEquals(1.5, ContainerCheck.coolingC(one, now.plus(ContainerCheck.LENGTH)), 1e-9);
    assertEquals(0, ContainerCheck.coolingC(one, now.plus(Duration.ofHours(3))), 1e-4);
  }

  @ParameterizedTest
  @MethodSource("moments")
  void someSensorsFail(Instant now, ZoneId zone) {
    Garden garden = Garden.of(new DemoCalendar(now, zone));
    assertEquals(0, readings(garden, "shed-bag-1", before(garden, 2, 0)).size());
    assertEquals(288, readings(garden, "shed-bag-1", before(garden, 3, 2)).size());
    assertEquals(288 - 60, readings(garden, "shed-tray-2", before(garden, 6, 5)).size());
    Span all = before(garden, 28, 0);
    SimulatedSensor late = sensor(garden, "shed-jar-3");
    assertEquals(84, late.times(all).stream().filter(late.faults()::isLate).count());
  }

  @Test
  void theBacklogIsWhatTheDecoderReads() throws InterruptedException {
    Instant now = Instant.parse("2026-02-20T13:30:00.123Z");
    Decoder decoder = new Decoder("tepidarium", List.of(), MAX_PAYLOAD_BYTES);
    Garden garden = Garden.of(new DemoCalendar(now, ZoneId.of("UTC")));
    List<SensorMessage> messages = messages(garden);
    assertEquals("shed-jar-3", messages.get(messages.size() - 1).sensor().name());
    int outOfOrder = 0;
    List<Reading> sent = new ArrayList<>();
    for (SensorMessage sensorMessage : messages) {
      byte[] payload = sensorMessage.payload();
      assertTrue(payload.length < MAX_PAYLOAD_BYTES / 50);
      Message message =
          new Message("tepidarium/" + sensorMessage.sensor(), payload, MessageDelivery.LIVE, now);
      List<Reading> readings = new ArrayList<>();
      decoder.decode(
          message,
          (part, last) -> {
            assertEquals(List.of(), part.rejects());
            readings.addAll(part.readings());
          });
      assertEquals(sensorMessage.readings(), readings);
      sent.addAll(readings);
      outOfOrder += inOrder(readings) ? 0 : 1;
    }
    assertTrue(outOfOrder > 10, "only " + outOfOrder + " arrays out of order");
    Set<Reading> different = new HashSet<>(sent);
    assertTrue(different.size() > 70_000, "only " + different.size() + " readings");
    assertTrue(sent.size() > different.size() + 3_000, "too few are repeated");
    long once =
        messages.stream().filter(p -> !p.repeated()).mapToLong(p -> p.readings().size()).sum();
    assertEquals(different.size(), once);
  }

  private static boolean inOrder(List<Reading> readings) {
    for (int i = 1; i < readings.size(); i++) {
      if (readings.get(i).at().isBefore(readings.get(i - 1).at())) {
        return false;
      }
    }
    return true;
  }

  @ParameterizedTest
  @MethodSource("moments")
  void liveReadingsContinueTheStoredHistory(Instant now, ZoneId zone) {
    Garden garden = Garden.of(new DemoCalendar(now, zone));
    Instant end = garden.calendar().now();
    for (SimulatedSensor sensor : garden.sensors()) {
      double before = sensor.climate().temperatureC().at(end.minusSeconds(2));
      double after = sensor.climate().temperatureC().at(end.plusSeconds(3));
      assertEquals(before, after, 0.05, sensor.id().name());
    }
  }
}
