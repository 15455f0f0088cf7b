package tepidarium.series.cassandra;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CassandraAddressTest {
  @Test
  void nodesKeyspaceAndOptionsAreRead() {
    CassandraAddress address =
        CassandraAddress.of(
            "cassandra://a.example.org,[2001:db8::1]:9999/seeds?sslmode=verify-full&dc=barn"
                + "&sslrootcert=/etc/ca.pem",
            "ida",
            "hush-hush");
    assertEquals(
        List.of(
            new CassandraAddress.Node("a.example.org", 9042),
            new CassandraAddress.Node("[2001:db8::1]", 9999)),
        address.nodes());
    assertEquals("seeds", address.keyspace());
    assertEquals("barn", address.dataCentre());
    assertEquals("verify-full", address.sslMode());
    assertEquals("/etc/ca.pem", address.authority());
    assertEquals("seeds at a.example.org:9042 or [2001:db8::1]:9999", address.toString());
    assertFalse(address.toString().contains("hush"));
  }

  @Test
  void withoutOptionsThereIsNoTlsAndTheDataCentreIsCassandrasOwn() {
    CassandraAddress address = CassandraAddress.of("cassandra://db/seeds", null, null);
    assertEquals("datacenter1", address.dataCentre());
    assertEquals("disable", address.sslMode());
    assertNull(address.authority());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "cassandra://db",
        "cassandra://db/Seeds",
        "cassandra://db/seeds;drop",
        "cassandra://ida:hush-hush@db/seeds",
        "cassandra://db/seeds?dc=",
        "cassandra://db/seeds?colour=green",
        "cassandra://db/seeds?dc=barn&dc=attic",
        "cassandra://db/seeds?dc=barn&sslmode=disable&dc=barn",
        "cassandra://db:port/seeds"
      })
  void anotherFormIsRefused(String url) {
    String words =
        String.valueOf(
            assertThrows(IllegalArgumentException.class, () -> CassandraAddress.of(url, null, null))
                .getMessage());
    assertTrue(words.contains("must be an address like cassandra://"), words);
  }

  @ParameterizedTest
  @ValueSource(strings = {"sslmode=require", "sslrootcert=ca.pem", "sslmode=disable&sslrootcert=c"})
  void aModeOfTlsThatDoesNotProtectIsRefused(String options) {
    String words =
        String.valueOf(
            assertThrows(
                    IllegalArgumentException.class,
                    () -> CassandraAddress.of("cassandra://db/seeds?" + options, null, null))
                .getMessage());
    assertTrue(words.contains("verify-ca or verify-full"), words);
  }
}
