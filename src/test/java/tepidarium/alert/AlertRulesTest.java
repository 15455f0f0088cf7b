package tepidarium.alert;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.reading.Quantity;

/** The deadband in effect when a calibration leaves an error. */
class AlertRulesTest {
  private static final ContainerId JAR = new ContainerId("jar");

  private final MemoryAlerts store = new MemoryAlerts();

  private double deadband(AlertKind kind, double error) {
    RemainingError remaining =
        (container, quantity, value) ->
            container.equals(JAR) && quantity != Quantity.HUMIDITY ? error : 0;
    AlertRules rules = new AlertRules(store, Duration.ofMinutes(30), remaining);
    return deadband(rules, kind, Band.DEFAULT);
  }

  @Test
  void aSmallErrorChangesNothing() {
    assertEquals(0.3, deadband(AlertKind.COLD, 0.13));
  }

  @Test
  void aLargerErrorIsTheDeadbandUpToThreefold() {
    assertEquals(0.5, deadband(AlertKind.COLD, 0.5));
    assertEquals(0.5, deadband(AlertKind.HOT, 0.5));
    assertEquals(0.9, deadband(AlertKind.COLD, 4), 1e-12);
  }

  @Test
  void otherQuantitiesAndKindsWithoutADeadbandStay() {
    assertEquals(2, deadband(AlertKind.DRY, 4));
    assertEquals(0, deadband(AlertKind.LIGHT, 4));
    assertEquals(0, deadband(AlertKind.SILENT, 4));
  }

  @Test
  void whatTheGrowerSetStays() {
    RuleOverride own = new RuleOverride(null, 0.1, null, null, null);
    store.put(new AlertKey(JAR, AlertKind.COLD), new AlertRuleStore.Decision(own, null));
    assertEquals(0.1, deadband(AlertKind.COLD, 0.5));
  }

  @Test
  void aNarrowBandLeavesRoomToReturn() {
    Band narrow = new Band(30, 30.8, 1, 95);
    AlertRules rules = new AlertRules(store, Duration.ofMinutes(30), (jar, quantity, value) -> 10);
    assertEquals(0.4, deadband(rules, AlertKind.COLD, narrow), 1e-9);
    assertEquals(0.4, deadband(rules, AlertKind.HOT, narrow), 1e-9);
    assertEquals(5, deadband(rules, AlertKind.DRY, narrow), 1e-9);
  }

  private static double deadband(AlertRules rules, AlertKind kind, Band band) {
    return rules.effective(new AlertKey(JAR, kind), band).rule().deadband();
  }
}
