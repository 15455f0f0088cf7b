package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.APIResponse;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Response;
import com.microsoft.playwright.Route;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.it.Grower;
import tepidarium.it.RunningService;

/**
 * A real browser that loses the network: pages and last state stay, entries wait and are sent once.
 */
class OfflineIT {
  private static final Page.WaitForConditionOptions LONG =
      new Page.WaitForConditionOptions().setTimeout(60_000);

  @TempDir private static Path data;
  private static RunningService service;
  private static Browser browser;

  @BeforeAll
  static void start() {
    service = RunningService.embedded(data);
    new Grower(service.api()).container("Shed jar", "");
    service
        .api()
        .post(
            "/api/lots",
            "{\"species\":\"cacao\",\"seeds\":900,\"gatheredAt\":\"%s\"}"
                .formatted(Instant.now().minusSeconds(90_000)));
    browser = Browser.start();
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  private static long sow() {
    return service
        .api()
        .post(
            "/api/sowings",
            "{\"lot\":1,\"groups\":[{\"container\":\"shed-jar\",\"seeds\":20}],\"at\":\"%s\"}"
                .formatted(Instant.now().minusSeconds(80_000)))
        .at("/entry/sowing")
        .asLong();
  }

  /** A page whose worker keeps all files and has seen the shelf and the Tally. */
  private static Page online(String locale) {
    Page page = browser.offlinePage(390, locale);
    page.navigate(service.url() + "/");
    page.waitForFunction("() => navigator.serviceWorker.controller?.state === 'activated'");
    page.reload();
    assertThat(page.locator("#main")).containsText("Shed jar");
    page.navigate(service.url() + "/tally.html");
    assertThat(page.locator(".sowing").first()).isVisible();
    await(
        page,
        "async () => (await (await caches.open('state')).keys())"
            + ".some((key) => key.url.endsWith('/api/tally'))");
    return page;
  }

  /** Waits for the promise of a function to become true. */
  static void await(Page page, String function) {
    page.waitForCondition(() -> (Boolean) page.evaluate(function), LONG);
  }

  @ParameterizedTest
  @CsvSource({
    "en-GB, Not live since, Kept on this device, 1 entry waiting to be sent",
    "de-DE, Nicht live seit, Auf diesem Gerät gespeichert, 1 Eintrag noch nicht gesendet"
  })
  void aReloadWithoutNetworkWorksAndEntriesAreSentOnce(
      String locale, String notLive, String kept, String waiting) {
    long sowing = sow();
    Page page = online(locale);
    page.context().setOffline(true);
    page.reload();
    assertThat(page.locator("#notice")).containsText(notLive);
    String group = "[data-group='" + sowing + "-1']";
    page.locator(group + " [data-act=check]").click();
    page.locator("#sheet [data-counter=germinated] button").last().click();
    page.locator("#sheet [type=submit]").click();
    assertThat(page.locator("#said")).containsText(kept);
    // Asked before the next navigation: Chromium lets a request through in the middle of one.
    assertEquals(1, entries(sowing), "nothing was sent yet");
    assertThat(page.locator(group + " .counts")).containsText("19");

    page.reload();
    assertThat(page.locator("#unsent")).containsText(waiting);
    assertThat(page.locator(group + " .counts")).containsText("19");
    page.navigate(service.url() + "/");
    assertThat(page.locator("#main")).containsText("Shed jar");
    page.navigate(service.url() + "/tally.html?container=shed-jar");
    assertThat(page.locator("#unsent")).containsText(waiting);

    page.context().setOffline(false);
    assertThat(page.locator("#unsent")).isHidden();
    assertThat(page.locator("#notice")).isHidden();
    page.reload();
    assertThat(page.locator(group + " .counts")).containsText("19");
    assertEquals(2, entries(sowing), "sent once");
  }

  private static int entries(long sowing) {
    return service.api().get("/api/sowings/" + sowing + "/entries").size();
  }

  @Test
  void theStateIsDatedByTheServicesLastAnswer() {
    sow();
    Page page = online("en-GB");
    page.evaluate(
        """
        async () => {
          const state = await caches.open('state');
          for (const key of await state.keys()) {
            const answer = await state.match(key);
            const headers = new Headers(answer.headers);
            headers.set('Kept-At', new Date(Date.now() - 36 * 3600e3).toISOString());
            await state.put(key, new Response(await answer.blob(), { headers }));
          }
        }
        """);
    page.context().setOffline(true);
    page.reload();
    // A time of another day comes with its date.
    assertThat(page.locator("#notice"))
        .containsText(Pattern.compile("Not live since \\w{3} \\d+ \\w{3}.* \\d\\d:\\d\\d"));
  }

  @Test
  void aLivePageSaysThatAPartOfItIsKept() {
    Page page = browser.page(390);
    String all = "**/api/containers*";
    page.route(
        all,
        route -> {
          APIResponse answer = route.fetch();
          Map<String, String> headers = new HashMap<>(answer.headers());
          headers.put("kept-at", "2026-03-02T12:00:00Z");
          route.fulfill(new Route.FulfillOptions().setResponse(answer).setHeaders(headers));
        });
    page.navigate(service.url() + "/");
    assertThat(page.locator("#live")).hasAttribute("data-state", "live");
    assertThat(page.locator("#notice")).containsText("A part of this page is from Mon 2 Mar");
    page.unroute(all);
    // The page asks again by itself.
    assertThat(page.locator("#notice")).isHidden();
    assertThat(page.locator("#main")).containsText("Shed jar");
  }

  @Test
  void aNewVersionReplacesTheKeptFiles() {
    sow();
    Page page = online("en-GB");
    page.evaluate("() => caches.open('pages-old').then((old) => old.put('/', new Response('x')))");
    page.evaluate(
        "async () => { for (const one of await navigator.serviceWorker.getRegistrations())"
            + " await one.unregister(); }");
    page.reload();
    await(page, "async () => !(await caches.has('pages-old'))");
    @SuppressWarnings("unchecked")
    List<String> names = (List<String>) page.evaluate("() => caches.keys()");
    assertEquals(2, names.size(), names.toString());
    assertTrue(
        names.stream().anyMatch(name -> name.matches("pages-[0-9a-f]{24}")), names.toString());
  }

  @Test
  void whatTheServiceToldIsForgottenAtTheSignOut() {
    sow();
    Page page = online("en-GB");
    page.evaluate("() => fetch('/api/session', { method: 'DELETE' })");
    await(page, "async () => !(await caches.has('state'))");
  }

  @Test
  void pagesAreInstallableAndTheirPolicyStaysStrict() {
    Page page = browser.offlinePage(390, "en-GB");
    Response answer = page.navigate(service.url() + "/");
    String policy = answer.headerValue("content-security-policy");
    assertTrue(policy.startsWith("default-src 'self';") && !policy.contains("unsafe"), policy);
    String manifest = page.locator("link[rel=manifest]").getAttribute("href");
    Object told =
        page.evaluate(
            "(at) => fetch(at).then((it) => it.json()).then((it) => it.display)", manifest);
    assertEquals("standalone", told);
    browser.assertNothingWrong(page);
  }

  @Test
  void withoutASecureContextThePageSaysHowToGetIt() {
    Page page = browser.offlinePage(390, "en-GB");
    page.addInitScript("Object.defineProperty(window, 'isSecureContext', { value: false })");
    page.navigate(service.url() + "/");
    assertThat(page.locator("#no-offline")).containsText("Over TLS these pages also work");
    assertThat(page.locator("#no-offline a")).hasAttribute("href", "/docs/operation.html#tls");
    Page secure = browser.page(390);
    secure.navigate(service.url() + "/");
    assertThat(secure.locator("#no-offline")).isHidden();
  }
}
