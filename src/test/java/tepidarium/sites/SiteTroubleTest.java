package tepidarium.sites;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** What is wrong with a site that answers. */
class SiteTroubleTest {
  private static final double DAY = 86_400;

  private static SiteTrouble of(
      List<String> down, long alerts, @Nullable Double untilFull, Boolean... waiting) {
    return SiteTrouble.of(
        new SiteState(
            null,
            "shed",
            "1",
            Instant.EPOCH,
            down.stream().map(part -> new SiteState.Down(part, "why")).toList(),
            new SiteState.Lease(1, Instant.EPOCH, 0.5),
            List.of(waiting).stream().map(one -> new SiteState.Waiting("barn", one)).toList(),
            new SiteState.Readings(0, 0, null),
            new SiteState.Disk(1, untilFull),
            new SiteState.Backup(null, true),
            alerts,
            new SiteState.TakeOvers(0, List.of())));
  }

  @Test
  void theWorstCounts() {
    assertEquals(SiteTrouble.NONE, of(List.of(), 0, null, true));
    assertEquals(SiteTrouble.NOBODY_WAITS, of(List.of(), 0, 14 * DAY));
    assertEquals(SiteTrouble.WAITING_WITHOUT_BROKER, of(List.of(), 0, null, false));
    assertEquals(SiteTrouble.NONE, of(List.of(), 0, null, false, true));
    assertEquals(SiteTrouble.DISK, of(List.of(), 0, 13.9 * DAY));
    assertEquals(SiteTrouble.PART, of(List.of("backup"), 0, null, true));
    assertEquals(SiteTrouble.HIGH_ALERTS, of(List.of("backup"), 1, null, true));
    assertEquals(SiteTrouble.BROKER, of(List.of("backup", "broker"), 1, null, true));
    assertEquals(SiteTrouble.RECORDS, of(List.of("broker", "records"), 0, null, true));
  }
}
