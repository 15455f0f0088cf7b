package tepidarium.web.labels;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.container.ContainerId;

class LabelAddressTest {
  @ParameterizedTest
  @CsvSource({
    "http://127.0.0.1:8080, true",
    "http://127.8.9.1, true",
    "http://LOCALHOST:8080, true",
    "http://shelf.localhost, true",
    "http://[::1]:8080, true",
    "http://0.0.0.0:8080, true",
    "http://192.168.1.20:8080, false",
    "https://127.example.org, false",
    "https://localhost.example.org/seeds, false",
    "http://[fe80::1]:8080, false"
  })
  void aPhoneCannotOpenALoopbackAddress(String url, boolean loopback) {
    assertEquals(loopback, new LabelAddress(url).isLoopback());
  }

  @Test
  void theAddressFromOutsideWins() {
    String outside = "https://seeds.example.org";
    assertEquals(outside, LabelAddress.of(outside, "http", "127.0.0.1:8080").url());
    assertEquals(
        "http://192.168.1.20:8080", LabelAddress.of(null, "http", "192.168.1.20:8080").url());
    assertEquals("http://localhost", LabelAddress.of(null, "http", null).url());
  }

  @Test
  void theLinkOpensTheCheckOfTheContainer() {
    assertEquals(
        "https://example.org/seeds/tally.html?container=jar-1",
        new LabelAddress("https://example.org/seeds").check(new ContainerId("jar-1")));
  }
}
