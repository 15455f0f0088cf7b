package tepidarium.web.pages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.javalin.Javalin;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.ZoneId;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.web.server.RouteServer;

/** Addresses of the pages, what stands in their HTML, and how browsers keep them. */
class PagesTest {
  private static final Pattern USED =
      Pattern.compile("(?:href|src)=\"(/[a-z/-]+\\.(?:css|js|svg))\"");
  private static Javalin server;

  @BeforeAll
  static void start() {
    server =
        RouteServer.start(config -> Pages.add(config, PageSetup.of(ZoneId.of("Europe/Berlin"))));
  }

  @AfterAll
  static void stop() {
    server.stop();
  }

  private static HttpResponse<String> ask(String method, String path, String... headers)
      throws IOException, InterruptedException {
    URI uri = URI.create("http://127.0.0.1:" + server.port() + path);
    HttpRequest.Builder request =
        HttpRequest.newBuilder(uri).method(method, HttpRequest.BodyPublishers.noBody());
    if (headers.length > 0) {
      request.headers(headers);
    }
    return HttpClient.newHttpClient().send(request.build(), BodyHandlers.ofString());
  }

  private static String header(HttpResponse<?> answer, String name) {
    return answer.headers().firstValue(name).orElse("");
  }

  @Test
  void theSiteStandsBesideTheProductAndTheMenuNamesTheOthers() {
    ZoneId zone = ZoneId.of("Europe/Berlin");
    String alone = PageFrame.page("service", "en", PageSetup.of(zone));
    assertFalse(alone.contains("class=\"site\""), alone);
    assertTrue(alone.contains("<li hidden><a href=\"/sites.html\">"), alone);
    String north = PageFrame.page("service", "de", new PageSetup(zone, "Nord 1", true));
    assertTrue(north.contains("<span>Tepidarium<span class=\"site\">Nord 1</span></span>"), north);
    assertTrue(north.contains("<li><a href=\"/sites.html\">Standorte</a>"), north);
  }

  @ParameterizedTest
  @CsvSource({
    "/, Shelf, shelf",
    "/index.html, Shelf, shelf",
    "/alerts.html, Alerts, alerts",
    "/charts.html, Charts, charts",
    "/container.html, Container, container",
    "/files.html, Files, files",
    "/heat-bench.html, Heat bench, heat-bench",
    "/labels.html, Labels, labels",
    "/mappings.html, Mapping rules, mappings",
    "/rejects.html, Not understood, rejects",
    "/season.html, Season report, season",
    "/sensors.html, Sensors, sensors",
    "/service.html, Service, service",
    "/settings.html, Settings, settings",
    "/sites.html, Sites, sites",
    "/tally.html, Tally, tally",
    "/docs/settings.html, Settings, document"
  })
  void eachPageHasTheFrameAndWhatItUses(String path, String title, String name)
      throws IOException, InterruptedException {
    HttpResponse<String> page = ask("GET", path);
    String html = page.body();
    assertEquals(200, page.statusCode(), html);
    assertTrue(header(page, "Content-Type").startsWith("text/html"));
    assertTrue(html.contains("<title>" + title + " · Tepidarium</title>"), html);
    assertTrue(
        html.contains("<script type=\"module\" src=\"/scripts/en/" + name + ".js\"></script>"),
        html);
    assertEquals(1, html.split("<script", -1).length - 1, "one script");
    assertTrue(html.contains("<nav id=\"pages\""), html);
    assertTrue(html.contains("<html lang=\"en\" data-zone=\"Europe/Berlin\">"), html);
    assertFalse(html.contains("<!--"), html);
    assertFalse(html.contains("{{"), html);
    for (String file : USED.matcher(html).results().map(used -> used.group(1)).toList()) {
      if (!file.startsWith("/uplot/")) {
        assertEquals(200, ask("GET", file).statusCode(), file);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/",
        "/alerts.html",
        "/docs/settings.html",
        "/shared/style.css",
        "/scripts/en/tally.js"
      })
  void browsersKeepPagesAndAskWhetherTheyHaveChanged(String path)
      throws IOException, InterruptedException {
    HttpResponse<String> first = ask("GET", path);
    assertEquals("no-cache", header(first, "Cache-Control"));
    assertTrue(header(first, "Content-Security-Policy").contains("default-src 'self'"));
    assertEquals("same-origin", header(first, "Referrer-Policy"));
    HttpResponse<String> again = ask("GET", path, "If-None-Match", header(first, "ETag"));
    assertEquals(304, again.statusCode());
    assertEquals("", again.body());
    assertEquals(200, ask("GET", path, "If-None-Match", "\"other\"").statusCode());
  }

  @ParameterizedTest
  @CsvSource({
    "de-AT;q=0.9, ,                de, Zum Inhalt",
    "'de-DE,de;q=0.9,en;q=0.8', , de, Zum Inhalt",
    "'en-GB,de;q=0.5', ,           en, To the content",
    "fr, ,                        en, To the content",
    "not a; language, ,           en, To the content",
    "de, language=en,             en, To the content",
    "en, language=de,             de, Zum Inhalt",
    "de, language=xx,             de, Zum Inhalt"
  })
  void pagesComeInTheLanguageThatTheReaderChoseOrTheBrowserPrefers(
      String accepted, @Nullable String cookie, String language, String text)
      throws IOException, InterruptedException {
    String[] headers =
        cookie == null
            ? new String[] {"Accept-Language", accepted}
            : new String[] {"Accept-Language", accepted, "Cookie", cookie};
    for (String path : new String[] {"/", "/tally.html", "/docs/settings.html"}) {
      HttpResponse<String> page = ask("GET", path, headers);
      assertEquals(language, header(page, "Content-Language"), path);
      assertEquals("Accept-Language, Cookie", header(page, "Vary"), path);
      assertTrue(page.body().contains("<html lang=\"" + language + "\" data"), page.body());
      assertTrue(page.body().contains(text), page.body());
      assertFalse(page.body().contains("{{"), page.body());
    }
  }

  @Test
  void textsOfThePageFillItsPlacesAndMissingOnesStopTheStart() {
    assertEquals("<b>Anmelden</b>", PageTexts.fill("<b>{{signIn}}</b>", "login", "de"));
    assertThrows(
        IllegalStateException.class, () -> PageTexts.fill("{{noSuchText}}", "login", "de"));
  }

  @Test
  void headRequestsHaveTheSameHeaders() throws IOException, InterruptedException {
    HttpResponse<String> get = ask("GET", "/tally.html");
    HttpResponse<String> head = ask("HEAD", "/tally.html");
    assertEquals(200, head.statusCode());
    assertEquals("", head.body());
    for (String name : new String[] {"ETag", "Content-Type", "Content-Length", "Cache-Control"}) {
      assertEquals(header(get, name), header(head, name), name);
    }
  }

  @Test
  void theScriptOfAPageKeepsItsCharacters() throws IOException, InterruptedException {
    HttpResponse<String> script = ask("GET", "/scripts/en/people.js");
    assertEquals("text/javascript;charset=utf-8", header(script, "Content-Type").replace(" ", ""));
    assertTrue(script.body().contains("·"), "a middle dot of the texts");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/shared/frame.html",
        "/tally/tally.html",
        "/tally",
        "/tally/",
        "/absent.html",
        "/tally.js",
        "/scripts/en/absent.js",
        "/scripts/xx/tally.js",
        "/scripts/en/../tally.js",
        "/scripts/en/tally.html"
      })
  void partsOfPagesAreNotServed(String path) throws IOException, InterruptedException {
    assertEquals(404, ask("GET", path).statusCode());
  }
}
