package tepidarium.sites;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.logging.Handler;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import java.util.logging.SimpleFormatter;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What is learned of other sites from their answers. */
class SitesTest {
  private static final Instant NOW = Instant.parse("2026-05-01T10:00:00Z");
  private static final String PROBLEM = "application/problem+json";
  private static final String STATE =
      """
      {"name":"North","machine":"shed","version":"1","time":"2026-05-01T10:00:00Z","down":[%s],
       "lease":null,"waiting":[],"readings":{"perMinute":4,"queue":0,"newest":null},
       "disk":{"freeBytes":1000,"secondsUntilFull":null},
       "backup":{"last":null,"elsewhere":true},"highAlerts":0,
       "takeOvers":{"count":0,"newest":[]},"laterField":1}
      """;

  private final List<HttpServer> servers = new ArrayList<>();
  private final List<String> authorizations = new CopyOnWriteArrayList<>();
  private final List<String> warnings = new CopyOnWriteArrayList<>();
  private final Logger log = Logger.getLogger(Sites.class.getName());
  private Instant now = NOW;
  private boolean clockFails;

  private final Clock clock =
      new Clock() {
        @Override
        public Instant instant() {
          if (clockFails) {
            throw new IllegalStateException("no time");
          }
          return now;
        }

        @Override
        public java.time.ZoneId getZone() {
          return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(java.time.ZoneId zone) {
          return this;
        }
      };

  private final Handler collecting =
      new Handler() {
        @Override
        public void publish(LogRecord entry) {
          warnings.add(new SimpleFormatter().formatMessage(entry));
        }

        @Override
        public void flush() {}

        @Override
        public void close() {}
      };

  @BeforeEach
  void collectWarnings() {
    log.addHandler(collecting);
  }

  @AfterEach
  void stop() {
    log.removeHandler(collecting);
    servers.forEach(server -> server.stop(0));
  }

  private URI machine(int status, String type, String body) throws IOException {
    HttpServer server =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext(
        "/",
        exchange -> {
          authorizations.add(
              exchange.getRequestURI() + " " + exchange.getRequestHeaders().get("Authorization"));
          exchange.getResponseHeaders().add("Content-Type", type);
          exchange.getResponseHeaders().add("Location", "/elsewhere");
          byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
          exchange.sendResponseHeaders(status, bytes.length);
          exchange.getResponseBody().write(bytes);
          exchange.close();
        });
    server.start();
    servers.add(server);
    return URI.create("http://127.0.0.1:" + server.getAddress().getPort());
  }

  private URI working(String down) throws IOException {
    return machine(200, "application/json", STATE.formatted(down));
  }

  private URI nobody() throws IOException {
    URI address = working("");
    servers.remove(servers.size() - 1).stop(0);
    return address;
  }

  private Sites sites(OtherSite... others) {
    return new Sites(
        List.of(others),
        () -> {
          throw new IllegalStateException();
        },
        clock);
  }

  private SiteReport report(URI... addresses) {
    try (Sites sites = sites(new OtherSite("North", List.of(addresses), "t0ken"))) {
      sites.askAll();
      return sites.reports().get(0);
    }
  }

  @Test
  void ofSeveralMachinesOneWorksAndTheOthersWait() throws IOException {
    SiteReport report =
        report(machine(503, PROBLEM, "{}"), working(""), machine(503, PROBLEM, "{}"));
    assertEquals(SiteTrouble.NONE, report.trouble());
    assertNull(report.since());
    assertEquals(2, report.waiting());
    assertEquals("shed", assertNotNullState(report).machine());
    assertTrue(authorizations.contains("/api/site [Bearer t0ken]"), authorizations::toString);
  }

  private static SiteState assertNotNullState(SiteReport report) {
    assertNotNull(report.state());
    return report.state();
  }

  @Test
  void aPartThatIsDownIsTold() throws IOException {
    SiteReport report = report(working("{\"part\":\"broker\",\"detail\":\"no answer\"}"));
    assertEquals(SiteTrouble.BROKER, report.trouble());
    assertEquals("no answer", report.detail());
    assertEquals(NOW, report.since());
  }

  @Test
  void whenNoneWorksTheReasonCounts() throws IOException {
    assertEquals(SiteTrouble.NOBODY_WORKS, report(machine(503, PROBLEM, "{}"), nobody()).trouble());
    assertEquals(SiteTrouble.UNREACHABLE, report(nobody(), nobody()).trouble());
    assertEquals(SiteTrouble.REFUSED, report(machine(401, PROBLEM, "{}")).trouble());
    // As a proxy answers that reaches none of its machines.
    assertEquals(SiteTrouble.UNREACHABLE, report(machine(503, "text/html", "away")).trouble());
  }

  @Test
  void redirectsLongAnswersAndOtherProgramsAreRefused() throws IOException {
    assertEquals(SiteTrouble.UNREADABLE, report(machine(302, "text/html", "")).trouble());
    assertEquals(List.of("/api/site [Bearer t0ken]"), authorizations);
    assertEquals(SiteTrouble.UNREADABLE, report(machine(200, "application/json", "{}")).trouble());
    SiteReport tooLong = report(machine(200, "application/json", " ".repeat(70_000)));
    assertEquals(SiteTrouble.UNREACHABLE, tooLong.trouble());
    assertTrue(String.valueOf(tooLong.detail()).contains("longer than 65536 bytes"));
  }

  @Test
  void theWorstStandsFirstWithTheTimeSinceWhen() throws IOException {
    URI address = working("");
    try (Sites sites =
        sites(
            new OtherSite("East", List.of(working("")), null),
            new OtherSite("North", List.of(address), null))) {
      assertEquals(SiteTrouble.NOT_ASKED, sites.reports().get(0).trouble());
      sites.askAll();
      servers.get(0).stop(0);
      now = NOW.plusSeconds(10);
      sites.askAll();
      now = NOW.plusSeconds(20);
      sites.askAll();
      SiteReport first = sites.reports().get(0);
      assertEquals("North", first.name());
      assertEquals(SiteTrouble.UNREACHABLE, first.trouble());
      assertEquals(NOW.plusSeconds(10), first.since());
      assertEquals("shed", assertNotNullState(first).machine());
      assertEquals(SiteTrouble.NONE, sites.reports().get(1).trouble());
    }
  }

  @Test
  void anAnswerWithoutARequiredPartIsUnreadable() throws IOException {
    String whole = STATE.formatted("");
    String lease = "\"lease\":{\"epoch\":1,\"since\":null,\"renewedSecondsAgo\":1}";
    for (String body :
        List.of(
            "null",
            whole.replace("\"highAlerts\":0,", ""),
            whole.replace("\"highAlerts\":0", "\"highAlerts\":null"),
            whole.replace("\"lease\":null,", ""),
            whole.replace("\"version\":\"1\"", "\"version\":null"),
            whole.replace("\"lease\":null", lease),
            whole.replace("\"waiting\":[]", "\"waiting\":[null]"),
            whole.replace(
                "\"waiting\":[]", "\"waiting\":[{\"machine\":null,\"reachesBroker\":true}]"),
            whole.replace("\"waiting\":[]", "\"waiting\":[{\"machine\":\"barn\"}]"),
            whole.replace("\"count\":0", "\"count\":1"),
            whole.replace("\"time\":\"2026-05-01T10:00:00Z\"", "\"time\":1e30"),
            STATE.formatted("{\"part\":\"broker\",\"detail\":null}"))) {
      SiteReport report = report(machine(200, "application/json", body));
      assertEquals(SiteTrouble.UNREADABLE, report.trouble(), body);
      assertNull(report.state(), body);
    }
    assertEquals(
        SiteTrouble.NONE, report(machine(200, "application/json", whole)).trouble(), whole);
  }

  @Test
  void aTokenThatFitsNoRequestFailsAlone() throws IOException {
    try (Sites sites =
        sites(
            new OtherSite("North", List.of(working("")), "t0ken\n"),
            new OtherSite("South", List.of(working("")), null))) {
      sites.askAll();
      SiteReport north = sites.reports().get(0);
      assertEquals("North", north.name());
      assertEquals(SiteTrouble.UNREACHABLE, north.trouble());
      assertEquals("its address or access token is not valid", north.detail());
      assertEquals(SiteTrouble.NONE, sites.reports().get(1).trouble());
    }
  }

  @Test
  void askingGoesOnAfterAFailureThatIsLoggedOnce() throws IOException {
    try (Sites sites = sites(new OtherSite("North", List.of(working("")), null))) {
      clockFails = true;
      sites.askAll();
      sites.askAll();
      assertEquals(SiteTrouble.NOT_ASKED, sites.reports().get(0).trouble());
      assertEquals(List.of("asking the other sites failed; asking again in 10 s"), warnings);
      clockFails = false;
      sites.askAll();
      assertEquals(SiteTrouble.NONE, sites.reports().get(0).trouble());
    }
  }

  @Test
  void aTokenThatGoesUnencryptedIsLoggedAtTheStart() {
    List<URI> addresses =
        List.of(
            URI.create("http://localhost:1"),
            URI.create("http://127.0.0.1:1"),
            URI.create("http://[::1]:1"),
            URI.create("https://127.0.0.1.example.org"),
            URI.create("http://127.0.0.1.example.org"));
    OtherSite open = new OtherSite("South", addresses, null);
    OtherSite north = new OtherSite("North", addresses, "t0ken");
    assertEquals(List.of(), open.addressesWithOpenToken());
    assertEquals(addresses.subList(4, 5), north.addressesWithOpenToken());
    try (Sites sites = sites(open, north)) {
      sites.warnOfOpenTokens();
      assertEquals(
          List.of(
              "the token of site North goes to " + addresses.get(4) + " unencrypted; use https"),
          warnings);
    }
  }

  @Test
  void aTokenIsNotPrinted() {
    assertFalse(new OtherSite("North", List.of(), "t0ken").toString().contains("t0ken"));
  }
}
