package tepidarium.series.cassandra;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class DurabilityCheckTest {
  private Instant now = Instant.parse("2026-03-01T06:00:00Z");
  private final Map<String, Supplier<@Nullable String>> nodes = new HashMap<>();
  private final DurabilityCheck check =
      new DurabilityCheck(
          CassandraAddress.of("cassandra://db/seeds", null, null),
          new Clock() {
            @Override
            public ZoneOffset getZone() {
              return ZoneOffset.UTC;
            }

            @Override
            public Clock withZone(ZoneId zone) {
              return this;
            }

            @Override
            public Instant instant() {
              return now;
            }
          });

  private String warningAfter(int seconds) {
    now = now.plusSeconds(seconds);
    check.check(nodes);
    return check.warning();
  }

  @Test
  void aCorrectedNodeIsNoLongerNamedAfterAMinute() {
    nodes.put("n1", () -> "periodic");
    nodes.put("n2", () -> "batch");
    String words = warningAfter(0);
    assertTrue(words.contains("before their disks have them: n1. A power cut"), words);
    nodes.put("n1", () -> "group");
    assertEquals(words, warningAfter(59));
    assertEquals("", warningAfter(1));
  }

  @Test
  void aNodeThatWasAwayIsAskedAgainAndKeepsItsNameWhileItIsAway() {
    nodes.put("n1", () -> null);
    assertEquals("", warningAfter(0));
    nodes.put("n1", () -> "periodic");
    String words = warningAfter(60);
    assertTrue(words.contains(": n1."), words);
    nodes.put("n1", () -> null);
    assertEquals(words, warningAfter(60));
    nodes.remove("n1");
    assertEquals("", warningAfter(60));
  }

  @Test
  void aClockThatWasSetBackDoesNotStopIt() {
    nodes.put("n1", () -> "batch");
    warningAfter(0);
    nodes.put("n1", () -> "periodic");
    assertTrue(warningAfter(-3_600).contains(": n1."));
  }
}
