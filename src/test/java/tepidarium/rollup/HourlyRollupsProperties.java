package tepidarium.rollup;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import tepidarium.heat.DegreeHours;
import tepidarium.heat.HeatRule;
import tepidarium.heat.HeatSum;
import tepidarium.heat.Limit;
import tepidarium.heat.TimeInBand;
import tepidarium.history.Downsampled;
import tepidarium.light.LightDose;
import tepidarium.light.LightEvents;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/** Tests that rollups give the same figures as the readings, for any arrival order. */
class HourlyRollupsProperties {
  private static final double RELATIVE = 1e-9;
  private static final int SECONDS = 3 * 24 * 3_600;

  private static List<Reading> randomRecord(Random random) {
    List<Reading> record = new ArrayList<>();
    long at = random.nextInt(7_200);
    while (at < SECONDS) {
      double lux = random.nextInt(20) == 0 ? random.nextInt(200) : 0;
      record.add(Bench.reading(at, 8 + random.nextInt(300) / 10.0, 60 + random.nextInt(40), lux));
      at += random.nextInt(30) == 0 ? random.nextInt(20_000) + 1 : random.nextInt(1_700) + 1;
    }
    return record;
  }

  private static Span randomSpan(Random random) {
    long a = random.nextInt(SECONDS + 7_200) - 3_600L;
    long b = random.nextInt(SECONDS + 7_200) - 3_600L;
    return new Span(
        Bench.START.plusSeconds(Math.min(a, b)), Bench.START.plusSeconds(Math.max(a, b)));
  }

  @Property(tries = 150)
  void sumsAreExactAfterAnyOrderOfArrival(@ForAll long seed) {
    Random random = new Random(seed);
    Bench bench = new Bench(Bench.START.plusSeconds(SECONDS - random.nextInt(SECONDS)));
    List<Reading> record = randomRecord(random);
    java.util.Collections.shuffle(record, random);
    int sent = 0;
    while (sent < record.size()) {
      int end = Math.min(record.size(), sent + 1 + random.nextInt(60));
      bench.sink.write(record.subList(sent, end));
      sent = end;
      agrees(bench, randomSpan(random));
    }
    bench.rollups.catchUp();
    agrees(bench, randomSpan(random));
  }

  @Property(tries = 50)
  void aCorrectionOfThePastIsFollowed(@ForAll long seed) {
    Random random = new Random(seed);
    Bench bench = new Bench(Bench.START.plusSeconds(SECONDS * 2L));
    bench.sink.write(randomRecord(random));
    Span span = randomSpan(random);
    agrees(bench, span);
    assertTrue(bench.hours.size() > 0 || span.length().compareTo(Duration.ofHours(2)) < 0);
    bench.register.change(bench.container().id(), Bench.settings(random.nextInt(20), null));
    agrees(bench, span);
    bench.register.calibrate(
        Bench.SENSOR, new tepidarium.container.Calibration(random.nextInt(5), -3, 0.1));
    agrees(bench, span);
    Instant cut = Bench.START.plusSeconds(random.nextInt(SECONDS));
    bench.register.place(Bench.SENSOR, null, cut, cut.plusSeconds(random.nextInt(50_000) + 1));
    agrees(bench, span);
  }

  private static void agrees(Bench bench, Span span) {
    var container = bench.container();
    Samples temperature = bench.calibrated.samples(container.id(), Quantity.TEMPERATURE, span);
    Samples light = bench.calibrated.samples(container.id(), Quantity.LIGHT, span);
    HeatRule rule = new HeatRule(container.settings().baseC(), container.settings().ceilingC());
    HeatSum exact = DegreeHours.of(temperature, span, rule, Bench.GAP);
    HeatSum told = bench.history.heat(container, span, rule);
    close(exact.degreeHours(), told.degreeHours(), "degree-hours");
    close(exact.hoursAboveBase(), told.hoursAboveBase(), "hours above base");
    assertEquals(exact.coveredMs(), told.coveredMs());
    assertEquals(exact.gapMs(), told.gapMs());

    HeatRule other = new HeatRule(12.25, null);
    close(
        DegreeHours.of(temperature, span, other, Bench.GAP).degreeHours(),
        bench.history.histogram(container, span).heat(other).degreeHours(),
        "degree-hours above another base");

    Duration join = Duration.ofMinutes(2);
    var lit = bench.history.light(container, span, 1, join);
    close(LightDose.of(light, span, Bench.GAP).luxHours(), lit.luxHours(), "light dose");
    assertEquals(
        LightEvents.of(light.between(span.fromMs(), span.toMs() + 1), 1, Bench.GAP, join).stream()
            .filter(event -> event.start().isBefore(span.to()))
            .toList(),
        lit.events().stream().map(ContainerHistory.LightEventDetail::event).toList());

    var cold = bench.history.band().cold(container, span);
    var exactCold =
        TimeInBand.of(temperature, span, Limit.low(29.5), Bench.GAP, ContainerHistory.DEFAULT_JOIN);
    close(exactCold.outsideMs(), cold.time().outsideMs(), "time too cold");
    assertEquals(exactCold.excursions().size(), cold.excursions().size());
    for (int i = 0; i < cold.excursions().size(); i++) {
      var a = exactCold.excursions().get(i);
      var b = cold.excursions().get(i).excursion();
      assertEquals(a.start(), b.start());
      assertEquals(a.end(), b.end());
      assertEquals(a.worst(), b.worst());
    }
  }

  private static void close(double exact, double told, String what) {
    assertEquals(exact, told, RELATIVE * Math.max(1, Math.abs(exact)), what);
  }

  @Property(tries = 100)
  void downsamplingFromRollupsLosesNoExtreme(@ForAll long seed) {
    Random random = new Random(seed);
    Bench bench = new Bench(Bench.START.plusSeconds(SECONDS * 2L));
    bench.sink.write(randomRecord(random));
    Span span = new Span(Bench.START, Bench.START.plusSeconds(SECONDS));
    int points = 1 + random.nextInt(72);
    Samples raw =
        bench
            .calibrated
            .samples(bench.container().id(), Quantity.TEMPERATURE, span)
            .between(span.fromMs(), span.toMs() + 1);
    List<Downsampled.Point> thinned =
        bench.history.series(bench.container(), span, points).get(Quantity.TEMPERATURE);
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < raw.size(); i++) {
      least = Math.min(least, raw.value(i));
      greatest = Math.max(greatest, raw.value(i));
    }
    assertEquals(
        least,
        thinned.stream()
            .filter(Downsampled.Point::known)
            .mapToDouble(Downsampled.Point::min)
            .min()
            .orElse(Double.POSITIVE_INFINITY));
    assertEquals(
        greatest,
        thinned.stream()
            .filter(Downsampled.Point::known)
            .mapToDouble(Downsampled.Point::max)
            .max()
            .orElse(Double.NEGATIVE_INFINITY));
    for (int i = 1; i < thinned.size(); i++) {
      assertTrue(thinned.get(i).atMs() > thinned.get(i - 1).atMs(), "points must ascend");
    }
  }
}
