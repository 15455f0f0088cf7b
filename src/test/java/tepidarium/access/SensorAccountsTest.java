package tepidarium.access;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.reading.InvalidInput;

class SensorAccountsTest {
  private static final Instant NOW = Instant.parse("2026-03-01T06:00:00Z");
  private static final List<String> TOPICS = List.of("tepidarium/jar-1/#");

  private final MemorySensorAccounts store = new MemorySensorAccounts();
  private final SensorAccounts accounts = new SensorAccounts(store, Set.of("gateway"));
  private final List<String> ended = new ArrayList<>();

  SensorAccountsTest() {
    accounts.onEnd(ended::add);
  }

  private SensorAccounts.NewPassword added(String name) {
    return accounts.add(name, TOPICS, List.of(), NOW);
  }

  @Test
  void onlyTheHashOfARandomPasswordIsStored() {
    SensorAccounts.NewPassword made = added("jar-1");
    assertTrue(
        made.password().matches("([a-km-np-z2-9]{4}-){4}[a-km-np-z2-9]{4}"), made.password());
    assertFalse(made.password().equals(added("jar-2").password()));
    SensorAccount stored = store.all().get(0);
    assertFalse(stored.passwordHash().contains(made.password()));
    assertFalse((stored + " " + made).contains(made.password()));
    SensorAccount read = new SensorAccounts(store, Set.of()).named("jar-1").orElseThrow();
    assertTrue(read.hasPassword(made.password()));
    assertFalse(read.hasPassword(made.password() + "x"));
    assertFalse(read.hasPassword(stored.passwordHash()));
  }

  @Test
  void aNewPasswordReplacesTheOldOneAndEndsConnections() {
    String old = added("jar-1").password();
    SensorAccounts.NewPassword replaced = accounts.replacePassword("jar-1");
    SensorAccount account = accounts.named("jar-1").orElseThrow();
    assertFalse(account.hasPassword(old));
    assertTrue(account.hasPassword(replaced.password()));
    assertEquals(TOPICS, account.topics());
    assertEquals(List.of("jar-1"), ended);
  }

  @Test
  void aRemovedAccountIsGoneAndItsConnectionsEnd() {
    added("jar-1");
    accounts.remove("jar-1");
    assertTrue(accounts.named("jar-1").isEmpty());
    assertTrue(store.all().isEmpty());
    assertEquals(List.of("jar-1"), ended);
    assertThrows(NoSuchElementException.class, () -> accounts.remove("jar-1"));
    assertThrows(NoSuchElementException.class, () -> accounts.replacePassword("jar-1"));
  }

  @Test
  void aNameIsTakenOnce() {
    added("jar-1");
    assertThrows(InvalidInput.class, () -> added("jar-1"));
    assertThrows(InvalidInput.class, () -> added("gateway"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "a b", "a\"b", "a/b", "#", "ä"})
  void aNameHasTheFormOfASensorsName(String name) {
    assertThrows(InvalidInput.class, () -> added(name));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "a/#/b", "a+", "$SYS/#", "a//b", "a\nb"})
  void aTopicMustBeATopicFilter(String topic) {
    List<String> one = List.of(topic);
    assertThrows(InvalidInput.class, () -> accounts.add("x", one, List.of(), NOW));
    assertThrows(InvalidInput.class, () -> accounts.add("x", TOPICS, one, NOW));
  }

  @Test
  void anAccountHasAtLeastOneTopicAndAtMostTwenty() {
    assertThrows(InvalidInput.class, () -> accounts.add("x", List.of(), List.of(), NOW));
    List<String> many = Collections.nCopies(21, "a");
    assertThrows(InvalidInput.class, () -> accounts.add("x", many, List.of(), NOW));
    accounts.add("lamp", List.of(), List.of("tepidarium/alert/#"), NOW);
  }
}
