package tepidarium.records.postgres;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import org.junit.jupiter.api.Test;

/** How long a lease that has run out is left alone, and how its owner is written. */
class GraceTest {
  private long nanos;
  private final Grace grace = new Grace(Duration.ofSeconds(8), () -> nanos);

  private void pass(long ms) {
    nanos += Duration.ofMillis(ms).toNanos();
  }

  @Test
  void thereIsNoneWhileTheSameServerAnswers() {
    grace.answers("one");
    pass(1_000);
    grace.answers("one");
    assertFalse(grace.isRunning());
  }

  @Test
  void itCountsFromTheFirstAnswerAfterAnOutage() {
    grace.answers("one");
    grace.away();
    pass(60_000);
    grace.answers("one");
    pass(7_999);
    grace.answers("one");
    assertTrue(grace.isRunning());
    pass(1);
    assertFalse(grace.isRunning());
  }

  @Test
  void anotherServerBeginsItToo() {
    grace.answers("one");
    grace.answers("two");
    assertTrue(grace.isRunning());
    pass(8_000);
    assertFalse(grace.isRunning());
  }

  @Test
  void forOneEpochItBeginsOnce() {
    grace.beginOnce(3);
    pass(8_000);
    grace.beginOnce(3);
    assertFalse(grace.isRunning());
    grace.beginOnce(4);
    assertTrue(grace.isRunning());
  }

  @Test
  void anOwnerTellsItsMachineAndItsService() {
    Owner first = Owner.of(Tenancy.alone("shed.example.org"));
    Owner again = Owner.of(Tenancy.alone("shed.example.org"));
    assertEquals("shed.example.org", first.machine());
    assertFalse(first.equals(again));
    assertTrue(first.isSameService(again));
    assertFalse(first.isSameService(Owner.of(Tenancy.alone("barn"))));
    assertEquals("shed", new Owner("shed.0c4e1a7f").machine(), "as earlier versions wrote it");
    assertTrue(
        new Owner("shed.0c4e1a7f.9b2d3e51").isSameService(new Owner("shed.0c4e1a7f")),
        "as earlier versions wrote it");
    assertFalse(new Owner("shed.0c4e1a7f.9b2d3e51").isSameService(new Owner("barn.0c4e1a7f")));
    assertEquals("", new Owner("").machine());
  }
}
