package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.access.AnonymousSensors;
import tepidarium.access.MemorySensorAccounts;

class SensorLoginsTest {
  private static SensorLogins logins(
      MemorySensorAccounts store, Map<String, ?> settings, boolean usedBefore) {
    SensorLogins logins = new SensorLogins(Config.of(settings), null);
    logins.read(store, usedBefore);
    return logins;
  }

  @ParameterizedTest
  @CsvSource({
    // setting, accounts in the settings, data folder used before, accepted
    "auto, false, false, loopback",
    "auto, false, true, everywhere",
    "auto, true, false, never",
    "auto, true, true, never",
    "loopback, true, true, loopback",
    "never, false, true, never",
    "everywhere, true, false, everywhere"
  })
  void theDefaultKeepsOldFoldersOpenAndNewOnesClosed(
      String setting, boolean accounts, boolean usedBefore, String accepted) {
    Map<String, Object> settings = new HashMap<>(Map.of("anonymousSensors", setting));
    if (accounts) {
      settings.put("accounts", Map.of("jar-1", "a password"));
    }
    SensorLogins logins = logins(new MemorySensorAccounts(), settings, usedBefore);
    assertEquals(accepted, logins.anonymous());
  }

  @Test
  void theFirstStartDecidesForLaterOnes() {
    MemorySensorAccounts store = new MemorySensorAccounts();
    assertEquals("loopback", logins(store, Map.of(), false).anonymous());
    assertEquals("loopback", logins(store, Map.of(), true).anonymous());
  }

  @Test
  void anOldFolderSaysThatEverybodyIsAccepted() {
    String words = logins(new MemorySensorAccounts(), Map.of(), true).health();
    assertTrue(words.contains("used before sensors had accounts"), words);
    assertTrue(words.contains("set anonymousSensors: loopback"), words);
  }

  @ParameterizedTest
  @CsvSource({
    "127.0.0.1, true", "127.0.0.2, true", "::1, true",
    "192.168.1.5, false", "0.0.0.0, false", "fe80::1, false"
  })
  void loopbackMeansThisMachine(String address, boolean accepted) throws UnknownHostException {
    InetAddress from = InetAddress.getByName(address);
    assertEquals(accepted, SensorLogins.needNoAccount(AnonymousSensors.LOOPBACK).test(from));
    assertFalse(SensorLogins.needNoAccount(AnonymousSensors.NEVER).test(from));
    assertTrue(SensorLogins.needNoAccount(AnonymousSensors.EVERYWHERE).test(from));
  }
}
