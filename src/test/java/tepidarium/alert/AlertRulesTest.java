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
    return rules.effective(new AlertKey(JAR, kind), Band.DEFAULT).rule().deadband();
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
}
