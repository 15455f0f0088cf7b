package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import tepidarium.heat.Limit;
import tepidarium.reading.Samples;

/** A failing closet is told in time; jitter and a switched heat mat are not taken for one. */
class ForecastProperties {
  private static final Instant NOW = Instant.parse("2026-03-01T12:00:00Z");

  /** Seven hours up to now; the time of the curve is in hours before now, negative. */
  private static Samples record(int stepSeconds, long seed, DoubleUnaryOperator curve) {
    Random random = new Random(seed);
    Samples.Builder builder = new Samples.Builder(1_000);
    long at = NOW.toEpochMilli() - Duration.ofHours(7).toMillis();
    while (at <= NOW.toEpochMilli()) {
      builder.add(at, curve.applyAsDouble((at - NOW.toEpochMilli()) / 3_600_000.0));
      // Irregular, as radio and naps make it.
      at += stepSeconds * (800L + random.nextInt(400));
    }
    return builder.build();
  }

  private static Optional<Forecast> cold(Samples samples, double limit) {
    return Forecast.of(samples, Limit.low(limit), NOW, Forecast.MAX_LEAD_TIME);
  }

  /** Steady at the start, then an approach to the steady value since so many hours. */
  private static DoubleUnaryOperator stopped(
      double start, double steady, double tauHours, double sinceHours) {
    return t ->
        t < -sinceHours
            ? start
            : steady + (start - steady) * Math.exp(-(t + sinceHours) / tauHours);
  }

  @Property(tries = 300)
  void aClosetWhoseHeaterStoppedIsForecastAtTheRightTime(
      @ForAll @DoubleRange(min = 12, max = 24) double room,
      @ForAll @DoubleRange(min = 1, max = 8) double tauHours,
      @ForAll @DoubleRange(min = 0.6, max = 2.5) double sinceHours,
      @ForAll @IntRange(min = 30, max = 120) int stepSeconds,
      @ForAll long seed) {
    DoubleUnaryOperator curve = stopped(31, room, tauHours, sinceHours);
    double crossing = 0.7;
    double limit = curve.applyAsDouble(crossing);
    double change = curve.applyAsDouble(-0.25) - curve.applyAsDouble(0);
    Optional<Forecast> forecast = cold(record(stepSeconds, seed, curve), limit);
    if (change >= 0.3) {
      double hours = Duration.between(NOW, forecast.orElseThrow().at()).toMillis() / 3_600_000.0;
      assertEquals(crossing, hours, 0.05, forecast.toString());
    }
    forecast.ifPresent(told -> assertTrue(told.perHourC() < 0));
  }

  @Property(tries = 300)
  void aSteadyValueInsideTheLimitRaisesNothing(
      @ForAll @DoubleRange(min = 0.3, max = 2) double tauHours,
      @ForAll @DoubleRange(min = 0.5, max = 2) double sinceHours,
      @ForAll long seed) {
    Samples settling = record(60, seed, stopped(33, 31, tauHours, sinceHours));
    assertEquals(Optional.empty(), cold(settling, 30.5));
  }

  @Property(tries = 250)
  void noiseOnASteadyRecordGivesNoForecast(
      @ForAll @DoubleRange(min = 0, max = 0.2) double noise,
      @ForAll @DoubleRange(min = 0, max = 0.5) double margin,
      @ForAll @IntRange(min = 20, max = 600) int stepSeconds,
      @ForAll long seed) {
    Random random = new Random(~seed);
    Samples samples = record(stepSeconds, seed, t -> 31 + noise * random.nextGaussian());
    assertEquals(Optional.empty(), cold(samples, 31 - margin));
    assertEquals(
        Optional.empty(),
        Forecast.of(samples, Limit.high(31 + margin), NOW, Forecast.MAX_LEAD_TIME));
  }

  @Property(tries = 400)
  void aThermostatIsNoForecast(
      @ForAll @DoubleRange(min = 8, max = 120) double periodMinutes,
      @ForAll @DoubleRange(min = 0.3, max = 4) double swing,
      @ForAll @DoubleRange(min = 0.2, max = 0.8) double heatingShare,
      @ForAll @DoubleRange(min = 0, max = 1) double phase,
      @ForAll @DoubleRange(min = 0, max = 0.1) double noise,
      @ForAll @DoubleRange(min = 0.02, max = 1) double margin,
      @ForAll @IntRange(min = 20, max = 300) int stepSeconds,
      @ForAll long seed) {
    Random random = new Random(~seed);
    DoubleUnaryOperator curve =
        t -> {
          double turns = t * 60 / periodMinutes + phase + 1_000;
          double part = turns - Math.floor(turns);
          double height =
              part < heatingShare ? part / heatingShare : (1 - part) / (1 - heatingShare);
          return 31 + swing * height + noise * random.nextGaussian();
        };
    Samples samples = record(stepSeconds, seed, curve);
    assertEquals(Optional.empty(), cold(samples, 31 - margin));
    assertEquals(
        Optional.empty(),
        Forecast.of(samples, Limit.high(31 + swing + margin), NOW, Forecast.MAX_LEAD_TIME));
  }

  /** At one instant noise may hide it; a minute later it is judged anew. */
  @Test
  void noiseMovesTheForecastLittleAndRarelyHidesIt() {
    DoubleUnaryOperator curve = stopped(31, 18, 4, 1.5);
    double limit = curve.applyAsDouble(1);
    int told = 0;
    for (int seed = 0; seed < 200; seed++) {
      Random random = new Random(~seed);
      Samples samples =
          record(60, seed, t -> curve.applyAsDouble(t) + 0.05 * random.nextGaussian());
      Forecast forecast = cold(samples, limit).orElse(null);
      if (forecast != null) {
        told++;
        double minutes = Duration.between(NOW, forecast.at()).toSeconds() / 60.0;
        assertEquals(60, minutes, 30, forecast.toString());
      }
    }
    assertTrue(told >= 180, told + " of 200");
  }

  @Test
  void anOverheatingHeaterIsForecastHot() {
    Samples samples = record(60, 1, stopped(31, 45, 5, 1));
    Forecast forecast =
        Forecast.of(samples, Limit.high(34.5), NOW, Forecast.MAX_LEAD_TIME).orElseThrow();
    // 45 − 14·exp(−(1 + x)/5) = 34.5, solved for x by hand.
    double hours = 5 * Math.log(14 / 10.5) - 1;
    assertEquals(hours, Duration.between(NOW, forecast.at()).toMillis() / 3_600_000.0, 0.02);
    assertTrue(forecast.perHourC() > 0);
  }

  @Test
  void aCrossingBeyondTheHorizonIsNotForecast() {
    Samples samples = record(60, 1, stopped(31, 18, 8, 1));
    double limit = stopped(31, 18, 8, 1).applyAsDouble(2.5);
    assertEquals(Optional.empty(), cold(samples, limit));
    assertTrue(Forecast.of(samples, Limit.low(limit), NOW, Duration.ofHours(3)).isPresent());
  }

  @Test
  void neitherCurrentExcursionsNorSilentSensorsAreForecast() {
    Samples samples = record(60, 1, stopped(31, 18, 4, 1));
    assertEquals(Optional.empty(), cold(samples, 30.5));
    assertEquals(Optional.empty(), cold(Samples.EMPTY, 25));
    assertTrue(cold(samples, 26.5).isPresent());
    Instant later = NOW.plus(Duration.ofMinutes(20));
    assertEquals(
        Optional.empty(), Forecast.of(samples, Limit.low(26.5), later, Forecast.MAX_LEAD_TIME));
  }
}
