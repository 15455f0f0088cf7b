package tepidarium.postgres;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.sql.SQLException;
import org.junit.jupiter.api.Test;

class PostgresFailureTest {
  private final SQLException away = new SQLException("Connection refused", "08001");
  private final SQLException standby =
      new SQLException("Could not find a server with specified targetServerType: primary", "08001");
  private final SQLException full = new SQLException("too many clients", "53300");
  private final SQLException refused = new SQLException("authentication failed", "28P01");
  private final SQLException missing = new SQLException("no such database", "3D000");

  @Test
  void whyTheLeaderRefusesIsToldRatherThanThatTheStandbyTakesNoChanges() {
    assertTold(full, standby);
    assertTold(full, away);
    assertTold(standby, away);
  }

  private static void assertTold(SQLException told, SQLException other) {
    assertSame(told, PostgresFailure.moreTelling(told, other));
    assertSame(told, PostgresFailure.moreTelling(other, told));
  }

  @Test
  void theFailureOfOneServerIsTold() {
    assertSame(away, PostgresFailure.moreTelling(null, away));
  }

  @Test
  void aRefusalIsPermanentOnceEachServerRefuses() {
    assertPermanent(true, refused);
    assertPermanent(true, refused, missing);
    assertPermanent(false, away, new SQLException("authentication failed", "28P01"));
    assertPermanent(false, new SQLException("authentication failed", "28P01"), missing, standby);
  }

  private static void assertPermanent(boolean expected, SQLException... ofEachServer) {
    SQLException told = null;
    for (SQLException one : ofEachServer) {
      told = PostgresFailure.moreTelling(told, one);
    }
    assertEquals(expected, PostgresFailure.isPermanent(told));
  }
}
