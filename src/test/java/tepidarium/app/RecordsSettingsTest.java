package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.postgres.PostgresAddress;
import tepidarium.postgres.PostgresAddress.Server;

/** The settings of PostgreSQL databases for the records and for the readings. */
class RecordsSettingsTest {
  private static PostgresAddress read(Map<String, ?> settings) {
    return Config.of(settings).keeping().records();
  }

  private static String problem(Map<String, ?> settings) {
    return assertThrows(ConfigException.class, () -> Config.of(settings)).getMessage();
  }

  @Test
  void withoutThemTheRecordsAreInAFile() {
    assertNull(read(Map.of()));
  }

  @Test
  void anAddressNamesTheServersOfAClusterAndTheDatabase() {
    String url = "postgresql://db-1:6000,10.0.0.2,[fe80::1]:7000/garden?sslmode=verify-full";
    PostgresAddress address =
        read(
            Map.of(
                "recordsUrl",
                url + "&sslrootcert=/etc/ca.pem",
                "recordsUser",
                "ida",
                "recordsPassword",
                "hush-hush"));
    assertEquals(
        List.of(
            new Server("db-1", 6000), new Server("10.0.0.2", 5432), new Server("[fe80::1]", 7000)),
        address.servers());
    assertEquals("garden", address.database());
    assertEquals("verify-full", address.sslMode());
    assertEquals("/etc/ca.pem", address.authority());
    assertEquals("hush-hush", address.password());
    assertFalse(address.toString().contains("hush-hush"));
    assertEquals("prefer", read(Map.of("recordsUrl", "postgres://db/garden")).sslMode());
  }

  @Test
  void anAddressNamesTheSchemaOfASite() {
    PostgresAddress north =
        read(Map.of("recordsUrl", "postgresql://db/gardens?currentSchema=north&sslmode=require"));
    assertEquals("north", north.schema());
    assertEquals("require", north.sslMode());
    assertEquals("gardens (schema north) at db:5432", north.toString());
    assertEquals("gardens:north", north.key());
    assertEquals("gardens", read(Map.of("recordsUrl", "postgresql://db/gardens")).key());
  }

  /** The readings would go into the schema of all sites that name none. */
  @Test
  void recordsAndReadingsInOneDatabaseHaveOneSchema() {
    String words =
        problem(
            Map.of(
                "recordsUrl", "postgresql://a,b/gardens?currentSchema=north",
                "readingsUrl", "postgresql://b/gardens"));
    assertTrue(words.contains("with different schemas"), words);
    read(
        Map.of(
            "recordsUrl", "postgresql://db/gardens?currentSchema=north",
            "readingsUrl", "postgresql://other/gardens"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "postgresql://ida:hush-hush@db/garden",
        "postgresql://db",
        "postgresql://db/",
        "postgresql://db/garden?sslmode=maybe",
        "postgresql://db/garden?password=hush-hush",
        "postgresql://db/garden?currentSchema=",
        "postgresql://db/garden?currentSchema=pg_catalog",
        "postgresql://db/garden?currentSchema=public",
        "postgresql://db/garden?currentSchema=north_readings",
        "postgresql://db/garden?currentSchema=north;drop",
        "postgresql://db/garden?currentSchema=north&currentSchema=south",
        "jdbc:postgresql://db/garden",
        "http://db/garden"
      })
  void anotherFormIsRefusedWithoutShowingIt(String url) {
    String words = problem(Map.of("recordsUrl", url));
    assertTrue(words.contains("recordsUrl must be an address like postgresql://"), words);
    assertFalse(words.contains("hush-hush"), words);
  }

  @Test
  void aStandbyNeedsEverythingOutsideItsMachine() {
    Map<String, Object> settings =
        new HashMap<>(Map.of("recordsUrl", "postgresql://db/garden", "standby", true));
    settings.put("readingsUrl", "postgresql://db/garden");
    assertTrue(
        problem(settings)
            .contains("standby needs recordsUrl, readingsUrl or influxUrl, and broker"));
    settings.put("broker", "tcp://broker:1883");
    assertTrue(Config.of(settings).keeping().standby());
    settings.put("keepRawDays", 90);
    assertTrue(problem(settings).contains("standby and keepRawDays exclude each other"));
  }

  @Test
  void readingsHaveADatabaseOfTheirOwn() {
    Map<String, Object> settings = new HashMap<>();
    settings.put("readingsUrl", "postgresql://db:6000/seeds");
    settings.put("readingsUser", "ida");
    settings.put("readingsPassword", "hush-hush");
    Config config = Config.of(settings);
    assertEquals("the database seeds at db:6000", config.keeping().readingsServer());
    assertEquals("readings", config.keeping().readings().settings());
    assertNull(config.keeping().records());
    assertFalse(config.toString().contains("hush-hush"), config::toString);
    settings.put("influxUrl", "http://db:8086");
    assertTrue(problem(settings).contains("readingsUrl and influxUrl are two places"));
    assertTrue(
        problem(Map.of("readingsUrl", "http://ida:hush-hush@db"))
            .contains("readingsUrl must be an address like postgresql://"));
    assertTrue(problem(Map.of("readingsUser", "ida")).contains("no effect without readingsUrl"));
  }

  @Test
  void readingsGoToCassandraByItsAddress() {
    Map<String, Object> settings = new HashMap<>();
    settings.put("readingsUrl", "cassandra://n1,n2:9000/seeds?dc=barn");
    settings.put("readingsUser", "ida");
    settings.put("readingsPassword", "hush-hush");
    Config config = Config.of(settings);
    assertEquals("the keyspace seeds at n1:9042 or n2:9000", config.keeping().readingsServer());
    assertEquals("barn", config.keeping().cassandra().dataCentre());
    assertEquals("hush-hush", config.keeping().cassandra().password());
    assertNull(config.keeping().readings());
    assertFalse(config.toString().contains("hush-hush"), config::toString);
    settings.put("influxUrl", "http://db:8086");
    assertTrue(problem(settings).contains("readingsUrl and influxUrl are two places"));
    String words = problem(Map.of("readingsUrl", "cassandra://ida:hush-hush@db/seeds"));
    assertTrue(words.contains("readingsUrl must be an address like cassandra://"), words);
    assertFalse(words.contains("hush-hush"), words);
  }

  @Test
  void aLoginWithoutAnAddressHasNoEffect() {
    assertTrue(
        problem(Map.of("recordsUser", "ida", "recordsPassword", "p"))
            .contains("recordsPassword has no effect without recordsUrl"));
  }
}
