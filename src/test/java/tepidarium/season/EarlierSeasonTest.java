package tepidarium.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.season.Results.sowing;

import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tepidarium.season.Results.Place;

class EarlierSeasonTest {
  private static EarlierSeason.Figures then(int germinated, int sown, @Nullable SeasonHeat heat) {
    return new EarlierSeason.Figures(
        7,
        "Spring 2025",
        Results.FROM.minus(Duration.ofDays(365)),
        Results.FROM.minus(Duration.ofDays(300)),
        SpeciesResult.of(List.of(sowing(1, sown, germinated))),
        heat);
  }

  /** Seeds of all sowings of a species count together: 56 of 70 now, 48 of 80 then. */
  @Test
  void speciesAreComparedWithThoseOfThen() {
    SeasonReport report =
        Results.report(
            List.of(sowing(1, 30, 26), sowing(2, 40, 30)),
            List.of(then(48, 80, new SeasonHeat(15, null, 360, 3))),
            Place.of("Closet", 480));
    EarlierSeason earlier = report.earlier().get(0);
    EarlierSeason.Species species = earlier.species().get(0);
    assertEquals(new EarlierSeason.Count(48, 80), species.then());
    assertEquals(new EarlierSeason.Count(56, 70), species.now());
    // Newcombe (1998), table II, case (a), method 10.
    assertEquals(0.0524, species.difference().low(), 5e-5);
    assertEquals(0.3339, species.difference().high(), 5e-5);
    assertEquals(new EarlierSeason.Heat(360, 384), earlier.heat());
    assertTrue(
        report
            .lessons()
            .get(0)
            .words()
            .startsWith(
                "Lychee did better than in Spring 2025 by 20 percentage points (95 %: 5 to 33): 56 of"
                    + " 70 now, 48 of 80 then."),
        report.lessons().toString());
  }

  @Test
  void heatFromAnotherBaseIsNotCompared() {
    EarlierSeason.Figures other = then(1, 2, new SeasonHeat(12, null, 360, 3));
    EarlierSeason.Figures ceiling = then(1, 2, new SeasonHeat(15, 36.0, 360, 3));
    EarlierSeason.Figures none = then(1, 2, null);
    SeasonReport report =
        Results.report(List.of(), List.of(other, ceiling, none), Place.of("Closet", 480));
    report.earlier().forEach(earlier -> assertNull(earlier.heat()));
    assertEquals(List.of(), report.earlier().get(0).species());
  }
}
