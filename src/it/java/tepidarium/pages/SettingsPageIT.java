package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.MailBox;
import tepidarium.it.Ports;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/** A real browser sets up notices by e-mail, tries them, and changes other settings. */
class SettingsPageIT {
  @TempDir private Path folder;
  private RunningService service;
  private Browser browser;
  private MailBox box;

  @BeforeEach
  void start() {
    box = MailBox.withoutTls(folder.resolve("mail"), Ports.free());
    service = RunningService.embedded(folder.resolve("data"));
    browser = Browser.start();
  }

  @AfterEach
  void stop() {
    browser.close();
    service.close();
    box.close();
  }

  private Page open(int width) {
    Page page = browser.page(width);
    page.navigate(service.url() + "/settings.html");
    assertThat(page.locator("#content")).isVisible();
    return page;
  }

  @Test
  void noticesByEmailAreSetUpTriedAndSent() {
    Page page = open(390);
    Locator form = page.locator("#email form");
    fill(form, "host", "127.0.0.1");
    fill(form, "port", String.valueOf(box.port()));
    form.locator("[name='notices.email.tls']").selectOption("none");
    fill(form, "user", MailBox.USER);
    fill(form, "password", "wrong");
    fill(form, "from", "shelf@example.org");
    fill(form, "to", "ida@example.org");
    Locator output = page.locator("#email .output");
    form.getByText("Send a test").click();
    assertThat(output).containsText("did not arrive");
    assertThat(output).containsText("user and password");
    assertEquals(0, box.mails().size());

    fill(form, "password", MailBox.PASSWORD);
    form.getByText("Send a test").click();
    assertThat(output).containsText("): arrived (");
    assertEquals(1, box.mails().size());
    assertTrue(
        service.api().get("/api/notifiers").findValuesAsText("kind").stream()
            .noneMatch("email"::equals),
        "a test saves nothing");
    form.getByText("Save").click();
    assertThat(output).containsText("Saved");
    assertThat(page.locator("#waiting")).hasText("");
    String settings = service.api().get("/api/settings").toString();
    assertFalse(settings.contains(MailBox.PASSWORD), settings);
    browser.assertNothingWrong(page);

    // Without a restart, the next alert is told by e-mail.
    Grower grower = new Grower(service.api());
    grower.awaitBroker();
    String jar = grower.container("Jar");
    grower.place("jar-1", jar, Instant.now().minusSeconds(3_600));
    Publisher sensor = Publisher.to(service.mqttPort());
    for (int minutes = 20; minutes >= 0; minutes -= 2) {
      sensor.send(
          "tepidarium/jar-1",
          "{\"temperature\":20.5,\"at\":\"" + Instant.now().minusSeconds(60L * minutes) + "\"}");
    }
    await()
        .atMost(Duration.ofSeconds(90))
        .until(() -> box.mails().stream().anyMatch(mail -> mail.contains("Jar")));

    page.reload();
    assertThat(page.locator("#email [name='notices.email.host']")).hasValue("127.0.0.1");
    assertThat(page.locator("#email [name='notices.email.password']")).hasValue("");
    form.getByText("Turn off").click();
    assertThat(output).containsText("Turned off");
  }

  private static void fill(Locator form, String field, String value) {
    form.locator("[name='notices.email." + field + "']").fill(value);
  }

  @Test
  void aSettingIsChangedAndWaitsForTheNextStart() {
    Page page = open(1280);
    page.locator("#search").fill("gap");
    Locator row = page.locator("[data-setting=maxGapMinutes]");
    assertThat(row).containsText("30 (default)");
    row.getByText("Change").click();
    row.locator("input").fill("0");
    row.getByText("Save").click();
    assertThat(row.locator(".problem")).containsText("between 1 and 1440");
    row.locator("input").fill("20");
    row.getByText("Save").click();
    assertThat(row.locator(".value")).hasText("20");
    assertThat(page.locator("#waiting")).containsText("maxGapMinutes");
    assertThat(page.locator("[data-setting=httpHost]")).isHidden();
    page.locator("#search").fill("httpHost");
    assertThat(page.locator("[data-setting=httpHost]")).containsText("in the settings file only");
    assertThat(page.locator("[data-setting=httpHost] button")).hasCount(0);
    // The refused value above.
    browser.complaints().removeIf(complaint -> complaint.contains("status of 400"));
    browser.assertNothingWrong(page);
  }
}
