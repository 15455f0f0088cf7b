package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/** A real browser on the page of mapping rules: a message that nothing reads gets a rule. */
class MappingsPageIT {
  private static final String TOPIC = "garden/box-7/state";
  private static final String PAYLOAD = "{\"air\":{\"temp\":\"86\",\"id\":4},\"data\":\"0F3C\"}";

  private static RunningService service;
  private static Browser browser;

  @BeforeAll
  static void start(@TempDir Path data) {
    service = RunningService.embedded(data);
    new Grower(service.api()).awaitBroker();
    browser = Browser.start();
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  private static void press(Page page, String name) {
    page.getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name)).first().click();
  }

  @Test
  void aMessageIsReadByARuleThatWasPutTogetherOnThePhone() {
    Publisher publisher = Publisher.to(service.mqttPort());
    publisher.attempt(TOPIC, PAYLOAD);
    Page page = browser.page(390);
    page.navigate(service.url() + "/rejects.html");
    page.getByText("Read it with a rule").first().click();

    press(page, "temp: 86");
    page.locator("select[name=unit]").selectOption("°F");
    press(page, "Use");
    assertThat(page.locator("#reading")).containsText("box-7: temperature 30 °C");

    press(page, "Unpack bytes of data");
    press(page, "byte 0");
    page.locator("select[name=quantity]").selectOption("battery");
    page.locator("select[name=unit]").selectOption("mV");
    press(page, "Use");
    assertThat(page.locator("#reading")).containsText("temperature 30 °C, battery 3.9 V");
    browser.assertNothingWrong(page);

    press(page, "Save rule");
    assertThat(page.locator("#rules")).containsText("garden/{sensor}/state");
    assertThat(page.locator("#no-messages")).isVisible();
    publisher.send(TOPIC, PAYLOAD);
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> service.api().call("GET", "/api/sensors/box-7", null).status() == 200);

    press(page, "Delete");
    assertThat(page.locator("#no-rules")).isVisible();
    browser.assertNothingWrong(page);
  }
}
