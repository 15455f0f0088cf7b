package tepidarium.web.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class WaitingPagesTest {
  private static WebServer.Address on(int port) {
    return new WebServer.Address("127.0.0.1", port, Set.of(), Set.of(), null);
  }

  private static HttpResponse<String> send(int port, String method, String path)
      throws IOException, InterruptedException {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path))
            .method(method, BodyPublishers.noBody())
            .build();
    return HttpClient.newHttpClient().send(request, BodyHandlers.ofString());
  }

  @Test
  void aWrongClockIsNamedAndHowFarItIsOff() throws Exception {
    try (WaitingPages pages = WaitingPages.start(on(0))) {
      pages.waitFor("barn", Duration.ofMinutes(-60));
      String page = send(pages.port(), "GET", "/").body();
      assertTrue(page.contains("is 60 min behind the database"), page);
      assertFalse(page.contains("do nothing"), page);
    }
  }

  private static String pageIn(int port, String language) throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + "/"))
            .header("Accept-Language", language)
            .build();
    return HttpClient.newHttpClient().send(request, BodyHandlers.ofString()).body();
  }

  @Test
  void aGermanBrowserReadsGerman() throws Exception {
    Pattern english = Pattern.compile("\\b(the|this|is|not|page|service|waiting)\\b");
    try (WaitingPages pages = WaitingPages.start(on(0))) {
      for (Runnable state :
          List.<Runnable>of(
              () -> pages.waitFor(null, null),
              () -> pages.waitFor("barn", Duration.ofMinutes(-60)),
              () -> pages.waitFor("barn", Duration.ofMinutes(60)),
              () -> pages.waitFor("barn", null),
              pages::takeOver)) {
        state.run();
        String page = pageIn(pages.port(), "de-AT,de;q=0.9,en;q=0.5");
        assertTrue(page.contains("<html lang=\"de\">"), page);
        String words =
            page.replaceAll("(?s)<style>.*?</style>|<[^>]*>", " ").toLowerCase(Locale.ROOT);
        assertFalse(english.matcher(words).find(), words);
      }
      pages.waitFor("barn", Duration.ofMinutes(-60));
      assertTrue(pageIn(pages.port(), "de").contains("geht gegenüber der Datenbank 60 min nach"));
      assertTrue(pageIn(pages.port(), "fr").contains("<html lang=\"en\">"));
    }
  }

  @Test
  void bothLanguagesHaveTheSameTexts() throws IOException {
    assertEquals(keys("waiting.properties"), keys("waiting_de.properties"));
  }

  private static Set<String> keys(String file) throws IOException {
    Properties texts = new Properties();
    try (InputStream bytes = WaitingPages.class.getResourceAsStream(file)) {
      texts.load(bytes);
    }
    return texts.stringPropertyNames();
  }

  @Test
  void everyRequestIsToldWhichServiceWorks() throws Exception {
    try (WaitingPages pages = WaitingPages.start(on(0))) {
      HttpResponse<String> shelf = send(pages.port(), "GET", "/");
      assertEquals(503, shelf.statusCode());
      assertTrue(shelf.body().contains("database does not answer yet"), shelf.body());
      assertEquals("10", shelf.headers().firstValue("retry-after").orElse(""));

      pages.waitFor("barn-2.lan<b>", null);
      String page = send(pages.port(), "GET", "/alerts.html").body();
      assertTrue(page.contains("on barn-2.lan_b_ works"), page);
      for (String method : new String[] {"GET", "POST", "DELETE"}) {
        HttpResponse<String> answer = send(pages.port(), method, "/api/containers");
        assertEquals(503, answer.statusCode());
        assertEquals(
            "application/problem+json", answer.headers().firstValue("content-type").orElse(""));
        assertTrue(answer.body().contains("barn-2.lan_b_ works"), answer.body());
      }
      HttpResponse<String> live = send(pages.port(), "GET", "/api/health/live");
      assertEquals(200, live.statusCode(), "a restart would not help");
      assertEquals("{\"live\":true}", live.body());
      pages.takeOver();
      assertTrue(send(pages.port(), "GET", "/").body().contains("takes over now"));
    }
  }

  @Test
  void thePortIsFreeAfterwards() throws Exception {
    int port;
    try (WaitingPages pages = WaitingPages.start(on(0))) {
      port = pages.port();
    }
    WaitingPages.start(on(port)).close();
  }

  @Test
  void aPortInUseEndsTheStartWithItsNumber() throws Exception {
    try (ServerSocket used = new ServerSocket(0)) {
      WebServer.Address address = on(used.getLocalPort());
      String words =
          assertThrows(IllegalStateException.class, () -> WaitingPages.start(address)).getMessage();
      assertTrue(words.contains("HTTP port " + used.getLocalPort()), words);
    }
  }
}
