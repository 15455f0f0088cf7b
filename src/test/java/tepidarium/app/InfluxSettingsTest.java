package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.series.influx.InfluxAddress;

class InfluxSettingsTest {
  private static final String URL = "http://192.168.1.5:8086";

  private static Config read(Map<String, String> settings) {
    return ConfigReader.read(null, Map.of(), settings);
  }

  private static String problem(Map<String, String> settings) {
    return String.valueOf(assertThrows(ConfigException.class, () -> read(settings)).getMessage());
  }

  @Test
  void withoutAnAddressReadingsStayInAFile() {
    Config config = read(Map.of());

    assertNull(config.keeping().influx());
    assertEquals(1_024, config.keeping().spoolMaxMegabytes());
    assertNull(config.keeping().rawDays());
    assertEquals(90.0, read(Map.of("keepRawDays", "90")).keeping().rawDays());
    assertTrue(problem(Map.of("keepRawDays", "0")).contains("keepRawDays must be from"));
  }

  @Test
  void anAddressAloneIsEnough() {
    assertEquals(
        new InfluxAddress(URL, "tepidarium", null, null, null),
        read(Map.of("influxUrl", URL)).keeping().influx());
  }

  @Test
  void allSettingsAreTaken() {
    Config config =
        ConfigReader.read(
            null,
            Map.of(
                "TEPIDARIUM_INFLUX_URL", URL,
                "TEPIDARIUM_INFLUX_DATABASE", "seeds",
                "TEPIDARIUM_INFLUX_USER", "grower",
                "TEPIDARIUM_INFLUX_PASSWORD", "secret"),
            Map.of("spoolMaxMegabytes", "50"));

    assertEquals(
        new InfluxAddress(URL, "seeds", "grower", "secret", null), config.keeping().influx());
    assertEquals(50, config.keeping().spoolMaxMegabytes());
  }

  @ParameterizedTest
  @ValueSource(strings = {"192.168.1.5", "ftp://host", "http://", "http://me:pw@host:8086", "a b"})
  void anythingButAWebAddressIsRefused(String url) {
    assertTrue(problem(Map.of("influxUrl", url)).contains("influxUrl must be an address"));
  }

  @Test
  void loginSettingsWithoutAnAddressAreRefused() {
    assertTrue(problem(Map.of("influxToken", "t")).contains("influxToken has no effect without"));
    assertTrue(
        problem(Map.of("influxUrl", URL, "influxPassword", "p"))
            .contains("influxPassword has no effect without influxUser"));
    assertTrue(
        problem(Map.of("influxUrl", URL, "influxUser", "u", "influxToken", "t"))
            .contains("two ways to log in"));
  }

  @Test
  void aDatabaseNameCannotAddAStatement() {
    assertTrue(
        problem(Map.of("influxUrl", URL, "influxDatabase", "a\"; DROP"))
            .contains("influxDatabase"));
  }

  @Test
  void secretsAreNotPrinted() {
    Config config =
        read(Map.of("influxUrl", URL, "influxUser", "u", "influxPassword", "hush-hush"));

    assertFalse(config.toString().contains("hush-hush"), config::toString);
    assertFalse(
        new InfluxAddress(URL, "db", null, null, "hush-hush").toString().contains("hush-hush"));
  }
}
