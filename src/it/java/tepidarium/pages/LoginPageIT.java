package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;

import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.LoginService;

/** A real browser signs in, adds a person and a token, and signs out. */
class LoginPageIT {
  private static LoginService service;
  private static Browser browser;

  @BeforeAll
  static void start(@TempDir Path data) {
    service = LoginService.start(data, Map.of());
    browser = Browser.start();
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  private static void signIn(Page page, String name, String secret) {
    page.locator("#name").fill(name);
    page.locator("#password").fill(secret);
    page.locator("#sign-in button").click();
  }

  @Test
  void theOwnerLetsSomebodyLook() {
    Page page = browser.page(390);
    page.navigate(service.url() + "/people.html");
    assertThat(page.locator("h1")).hasText("Sign in");
    assertThat(page.locator("#name")).hasValue("owner");
    browser.assertNothingWrong(page);
    signIn(page, "owner", service.password());
    assertThat(page.locator("h1")).hasText("People");

    page.locator("#person-name").fill("Ada");
    page.locator("#person-password").fill("heat and moss");
    page.locator("#add-person button").click();
    assertThat(page.locator("#person-output")).hasText("Ada can sign in now.");
    assertThat(page.locator("#people .person")).hasCount(2);
    page.locator("#token-name").fill("logger");
    page.locator("#add-token button").click();
    assertThat(page.locator("#token-output .secret")).containsText("tepidarium_");
    assertThat(page.locator("#tokens")).containsText("logger · look");
    browser.assertNothingWrong(page);

    page.locator("#sign-out").click();
    assertThat(page.locator("h1")).hasText("Sign in");
    page.navigate(service.url() + "/alerts.html");
    signIn(page, "ada", "heat and moss");
    assertThat(page.locator("h1")).hasText("Alerts");
    assertThat(page.locator("#account")).hasText("Account");
    page.locator("#account").click();
    assertThat(page.locator("h1")).hasText("Account");
    assertThat(page.locator("#sessions")).containsText("This browser: Ada");
    assertThat(page.locator("#own-part")).isHidden();
    page.navigate(service.url() + "/season.html");
    assertThat(page.locator("#account")).isVisible();
    assertThat(page.locator("#keep-part")).isHidden();
    browser.assertNothingWrong(page);
  }

  /** Entries that wait would be sent in the name of the next person. */
  @Test
  void whoSignsOutLeavesNothingBehind() {
    Page page = browser.offlinePage(390, "en-GB");
    page.navigate(service.url() + "/alerts.html");
    signIn(page, "owner", service.password());
    page.waitForFunction("() => navigator.serviceWorker.controller?.state === 'activated'");
    page.reload();
    OfflineIT.await(page, "() => caches.has('state')");
    page.evaluate("() => localStorage.setItem('tepidarium.unsent', '[{}]')");
    page.locator("#sign-out").click();
    assertThat(page.locator("#sign-out-trouble")).containsText("still has to send 1 entry.");
    page.evaluate("() => localStorage.removeItem('tepidarium.unsent')");

    page.context().setOffline(true);
    page.locator("#sign-out").click();
    assertThat(page.locator("#sign-out-trouble")).containsText("you are still signed in");
    OfflineIT.await(page, "async () => !(await caches.has('state'))");
    page.context().setOffline(false);

    page.reload();
    OfflineIT.await(page, "() => caches.has('state')");
    page.locator("#sign-out").click();
    assertThat(page.locator("h1")).hasText("Sign in");
    OfflineIT.await(
        page,
        "async () => (await (await caches.open('state')).keys())"
            + ".every((key) => key.url.endsWith('/api/session'))");
    page.context().setOffline(true);
    page.navigate(service.url() + "/alerts.html");
    assertThat(page.locator("h1")).hasText("Alerts");
    assertThat(page.locator("#account")).hasCount(0);
  }
}
