package tepidarium.light;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tepidarium.reading.Samples;

/** Invented light at real places; where the sun stood is checked in {@link SunTest}. */
class LightCausesTest {
  private static final Site BERLIN = new Site(52.52, 13.405);
  private static final Site SVALBARD = new Site(78.22, 15.65);
  private static final Site TROMSO = new Site(69.65, 18.96);
  private static final Duration GAP = Duration.ofMinutes(30);
  private static final Duration JOIN = Duration.ofMinutes(2);

  /** Light over part of a dark record, a reading a minute; the share runs from 0 to 1. */
  private static Samples light(String from, int minutes, DoubleUnaryOperator lux) {
    long start = Instant.parse(from).toEpochMilli();
    Samples.Builder builder = new Samples.Builder(minutes + 20);
    for (int i = -5; i <= minutes + 10; i++) {
      boolean lit = i >= 0 && i <= minutes;
      double share = minutes == 0 ? 0 : (double) i / minutes;
      builder.add(start + i * 60_000L, lit ? lux.applyAsDouble(share) : 0);
    }
    return builder.build();
  }

  /** Comes and goes by degrees. */
  private static double hump(double share) {
    return 2 + 40 * Math.sin(Math.PI * share);
  }

  private static LightCauses.Seen seen(Samples light, boolean opening) {
    LightEvent event = LightEvents.of(light, 1, GAP, JOIN).get(0);
    return new LightCauses.Seen(event, LightShape.of(light, event, 1), opening);
  }

  private static LightCause only(Samples light, @Nullable Site site) {
    return LightCauses.of(List.of(seen(light, false)), site).get(0);
  }

  @Test
  void lightThatFollowsTheSunIsDaylightAndTheAdviceNamesTheSide() {
    LightCause dawn = only(light("2026-03-01T05:45:00Z", 90, LightCausesTest::hump), BERLIN);
    assertEquals(LightKind.DAYLIGHT, dawn.kind());
    assertTrue(dawn.advice().contains("east") && dawn.advice().contains("window"), dawn.advice());
  }

  @Test
  void theSameLightAtNightIsALamp() {
    LightCause night = only(light("2026-03-01T22:00:00Z", 90, LightCausesTest::hump), BERLIN);
    assertEquals(LightKind.LAMP, night.kind());
    assertTrue(night.advice().contains("below the horizon"), night.advice());
  }

  @Test
  void aSteadyLightByDayIsALamp() {
    assertEquals(LightKind.LAMP, only(light("2026-03-01T11:00:00Z", 120, s -> 80), BERLIN).kind());
  }

  @Test
  void lightThatGoesOnFarIntoTheNightIsALamp() {
    // Sunset in Berlin on that day is at 16:45 UTC, the end of civil twilight at 17:18.
    Samples evening = light("2026-03-01T15:00:00Z", 240, LightCausesTest::hump);
    assertEquals(LightKind.LAMP, only(evening, BERLIN).kind());
  }

  @Test
  void aSingleFlashByDayHasAnUnknownCause() {
    LightCause flash = only(light("2026-03-01T11:00:00Z", 1, s -> 80), BERLIN);
    assertEquals(LightKind.OTHER, flash.kind());
    assertTrue(flash.advice().contains("lid"), flash.advice());
  }

  @Test
  void aFlashThatComesBackWithTheSunIsDaylightAndAtNightALamp() {
    assertEquals(List.of(LightKind.DAYLIGHT), kinds(flashes("11:00:00Z", 3), BERLIN));
    assertEquals(List.of(LightKind.OTHER), kinds(flashes("11:00:00Z", 2), BERLIN));
    assertEquals(List.of(LightKind.LAMP), kinds(flashes("21:00:00Z", 3), BERLIN));
  }

  private static List<LightCauses.Seen> flashes(String time, int days) {
    List<LightCauses.Seen> seen = new ArrayList<>();
    for (int day = 1; day <= days; day++) {
      seen.add(seen(light("2026-03-0" + day + 'T' + time, 1, s -> 80), false));
    }
    return seen;
  }

  private static List<LightKind> kinds(List<LightCauses.Seen> seen, Site site) {
    return LightCauses.of(seen, site).stream().map(LightCause::kind).distinct().toList();
  }

  @Test
  void aRecordedOpeningIsOneAtAnyTime() {
    LightCauses.Seen opening = seen(light("2026-03-01T22:00:00Z", 5, s -> 80), true);
    assertEquals(LightKind.OPENING, LightCauses.of(List.of(opening), BERLIN).get(0).kind());
    assertEquals(LightKind.OPENING, LightCauses.of(List.of(opening), null).get(0).kind());
  }

  @Test
  void withoutASiteTheCauseIsUnknown() {
    LightCause night = only(light("2026-03-01T22:00:00Z", 90, LightCausesTest::hump), null);
    assertEquals(LightKind.OTHER, night.kind());
    assertTrue(night.advice().contains("site"), night.advice());
  }

  @Test
  void polarNightAndPolarDayFollowTheSameRules() {
    Samples winterNoon = light("2025-12-21T11:00:00Z", 90, LightCausesTest::hump);
    assertEquals(LightKind.LAMP, only(winterNoon, SVALBARD).kind());
    Samples summerMidnight = light("2026-06-21T22:00:00Z", 90, LightCausesTest::hump);
    assertEquals(LightKind.DAYLIGHT, only(summerMidnight, TROMSO).kind());
    assertEquals(LightKind.LAMP, only(summerMidnight, BERLIN).kind());
  }

  @Property(tries = 200)
  void belowCivilTwilightItIsNeverDaylight(
      @ForAll @DoubleRange(min = -90, max = 90) double latitude,
      @ForAll @DoubleRange(min = -180, max = 180) double longitude,
      @ForAll @IntRange(min = 0, max = 365 * 24) int hour,
      @ForAll @IntRange(min = 0, max = 60) int minutes) {
    Site site = new Site(latitude, longitude);
    Instant start = Instant.parse("2026-01-01T00:00:00Z").plus(Duration.ofHours(hour));
    // The event ends with the first dark reading, one minute after the light was last seen.
    boolean night =
        IntStream.rangeClosed(0, minutes + 1)
            .mapToObj(minute -> Sun.over(site, start.plus(Duration.ofMinutes(minute))))
            .noneMatch(Sun::givesLight);
    if (night) {
      Samples light = light(start.toString(), minutes, LightCausesTest::hump);
      LightKind kind = only(light, site).kind();
      assertNotEquals(LightKind.DAYLIGHT, kind);
      assertNotEquals(LightKind.OTHER, kind);
    }
  }
}
