package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.container.ContainerId;
import tepidarium.heat.HeatRule;

/** The heat of a group that was joined from two containers. */
class JoinedHeatTest {
  private static final GroupId WARM = new GroupId(1, 1);
  private static final GroupId COOL = new GroupId(1, 2);

  /**
   * By hand, above 15 °C for 120 h: 16 × 120 = 1920 °C·h at 31 °C, 11 × 120 = 1320 °C·h at 26 °C.
   * One seed of the first and 20 of the second have not germinated: (1920 + 20 × 1320) / 21.
   */
  @Test
  void joinedSeedsHaveTheMeanHeatOfThoseStillUngerminated() {
    Shelf shelf = new Shelf();
    ContainerId warm = shelf.container("warm", 31);
    ContainerId cool = shelf.container("cool", 26);
    SowingTimeline timeline =
        SowingTimeline.of(
            List.of(
                Shelf.entry(
                    1,
                    0,
                    new Act.Sown(
                        1,
                        null,
                        List.of(new Act.Part(WARM, warm, 20), new Act.Part(COOL, cool, 20)))),
                Shelf.entry(1, 5, new Act.Checked(WARM, 19, List.of(), 0, List.of())),
                Shelf.entry(1, 5, new Act.Moved(WARM, cool, null, null, null, COOL))));
    GroupState joined =
        timeline.groups().stream().filter(g -> g.id().equals(COOL)).findFirst().orElseThrow();
    Instant now = Shelf.day(5);
    HeatRule rule = new HeatRule(15, null);
    SeedHeat seedHeat = new HeatPath(shelf, null).seedHeat(joined.seedPaths(), now, now, rule);
    assertEquals((1920 + 20 * 1320) / 21.0, seedHeat.likely(), 1e-6);
    assertEquals(1348.571, seedHeat.likely(), 1e-3);
  }
}
