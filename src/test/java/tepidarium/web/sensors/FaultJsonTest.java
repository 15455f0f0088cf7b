package tepidarium.web.sensors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.fault.FaultDecision;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;
import tepidarium.web.Visitor;

class FaultJsonTest {
  private static final Instant NOW = Instant.parse("2026-03-02T00:00:00Z");

  private static FaultDecision decision(String to) {
    return decision("stuck", to, true);
  }

  private static FaultDecision decision(String kind, String to, boolean excluded) {
    return new FaultJson.DecisionRequest(
            "temperature", kind, "2026-03-01T00:00:00Z", to, excluded, "Ada")
        .decision(new SensorId("probe"), Visitor.EVERYBODY, NOW);
  }

  /** Otherwise all readings up to then would be left out when they arrive. */
  @Test
  void readingsOfTheFutureCannotBeExcluded() {
    assertEquals(NOW, decision("2026-03-02T00:00:00Z").to());
    InvalidInput refused = assertThrows(InvalidInput.class, () -> decision("2026-03-02T00:00:01Z"));
    assertEquals("to", refused.field());
  }

  /** Otherwise whole days would be left out because a sensor reports less often. */
  @ParameterizedTest
  @ValueSource(strings = {"lengthening-interval", "falling-battery"})
  void aKindWithoutFaultyReadingsCanOnlyBeIncluded(String kind) {
    String to = "2026-03-02T00:00:00Z";
    assertEquals(kind, decision(kind, to, false).kind().key());
    InvalidInput refused = assertThrows(InvalidInput.class, () -> decision(kind, to, true));
    assertEquals("kind", refused.field());
  }
}
