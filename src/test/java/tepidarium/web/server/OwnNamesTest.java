package tepidarium.web.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class OwnNamesTest {
  private final OwnNames names =
      new OwnNames(List.of("garden.example.org", "Shed.example.org:8443", "[2001:db8::1]:8080"));

  @ParameterizedTest
  @ValueSource(
      strings = {
        "localhost",
        "LOCALHOST.",
        "shelf.localhost",
        "127.0.0.1",
        "127.9.9.9",
        "[::1]",
        "::1",
        "garden.example.org",
        "GARDEN.example.org.",
        "shed.example.org",
        "[2001:db8::1]"
      })
  void loopbackAndConfiguredNamesAreOwnHosts(String host) {
    assertTrue(names.isOwnHost(host));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "evil.example", "localhost.evil.example", "127.0.0.1.evil.example", "evil.example:80",
        "garden.example.org.evil.example", "x.garden.example.org", "203.0.113.7", "[2001:db8::2]",
        "999.999.999.999", "0x7f000001", "", "127.1"
      })
  void otherNamesAreForeign(String host) {
    assertFalse(names.isOwnHost(host));
  }

  @Test
  void theMachinesNamesAreOwnAlsoInTheLocalNetwork() throws UnknownHostException {
    String name = InetAddress.getLocalHost().getHostName();
    String first = name.split("\\.", 2)[0];
    assertTrue(names.isOwnHost(name));
    assertTrue(names.isOwnHost(first + ".local"));
    assertFalse(names.isOwnHost(first + ".evil.example"));
  }

  @ParameterizedTest
  @CsvSource({
    "http://localhost:8080, localhost, 8080, true",
    "http://LOCALHOST:8080, localhost, 8080, true",
    "http://[::1]:8080, [::1], 8080, true",
    "http://pi.local, pi.local, 80, true",
    "https://pi.local, pi.local, 80, true",
    "https://garden.example.org, 127.0.0.1, 8080, true",
    "https://shed.example.org:8443, 127.0.0.1, 8080, true",
    "https://shed.example.org, 127.0.0.1, 8080, false",
    "https://garden.example.org:9999, 127.0.0.1, 8080, false",
    "http://localhost:3000, localhost, 8080, false",
    "http://localhost, localhost, 8080, false",
    "http://127.0.0.1:8080, localhost, 8080, false",
    "http://evil.example, localhost, 8080, false",
    "http://evil.example:8080, localhost, 8080, false",
    "null, localhost, 8080, false",
    "file://, localhost, 8080, false",
    "not a URL, localhost, 8080, false",
  })
  void anOriginIsOwnOnlyWithTheSameHostAndPort(String origin, String host, int port, boolean own) {
    assertEquals(own, names.isOwnOrigin(origin, host, port));
  }
}
