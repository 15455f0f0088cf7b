package tepidarium.web.sensors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import tepidarium.fault.FaultDecision;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;

class FaultJsonTest {
  private static final Instant NOW = Instant.parse("2026-03-02T00:00:00Z");

  private static FaultDecision decision(String to) {
    return new FaultJson.DecisionRequest(
            "temperature", "stuck", "2026-03-01T00:00:00Z", to, true, "Ada")
        .decision(new SensorId("probe"), NOW);
  }

  /** Otherwise all readings up to then would be left out when they arrive. */
  @Test
  void readingsOfTheFutureCannotBeExcluded() {
    assertEquals(NOW, decision("2026-03-02T00:00:00Z").to());
    InvalidInput refused = assertThrows(InvalidInput.class, () -> decision("2026-03-02T00:00:01Z"));
    assertEquals("to", refused.field());
  }
}
