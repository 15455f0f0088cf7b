package tepidarium.postgres;

import static org.junit.jupiter.api.Assertions.assertSame;

import java.sql.SQLException;
import org.junit.jupiter.api.Test;

class PostgresFailureTest {
  private static final SQLException AWAY = new SQLException("Connection refused", "08001");
  private static final SQLException STANDBY =
      new SQLException("Could not find a server with specified targetServerType: primary", "08001");
  private static final SQLException FULL = new SQLException("too many clients", "53300");

  @Test
  void whyTheLeaderRefusesIsToldRatherThanThatTheStandbyTakesNoChanges() {
    assertTold(FULL, STANDBY);
    assertTold(FULL, AWAY);
    assertTold(STANDBY, AWAY);
  }

  private static void assertTold(SQLException told, SQLException other) {
    assertSame(told, PostgresFailure.moreTelling(told, other));
    assertSame(told, PostgresFailure.moreTelling(other, told));
  }

  @Test
  void theFailureOfOneServerIsTold() {
    assertSame(AWAY, PostgresFailure.moreTelling(null, AWAY));
  }
}
