package tepidarium.web.server;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.util.Set;
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
