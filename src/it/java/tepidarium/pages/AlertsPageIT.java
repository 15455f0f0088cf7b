package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.time.Instant;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** A grower with a phone deals with a cold alert on the Alerts page. */
class AlertsPageIT extends OnEmptyService {
  private static final Pattern WAITS =
      Pattern.compile("has been told yet: further alerts are collected until .*\\d\\d:\\d\\d");

  @Test
  void aColdAlertIsShelvedTakenBackAcknowledgedAndRemembered() {
    coldJar();
    Page page = browser.page(390);
    page.navigate(service.url() + "/alerts.html");
    Locator open = page.locator("#open-list [data-kind=cold]");
    assertThat(open).containsText("Jar");
    Locator menu = page.locator("nav a[href='/alerts.html']");
    assertThat(menu).containsText("(1 open)");
    page.locator("#who").fill("Ada");

    open.locator("summary").press("Enter");
    open.locator("[name=minutes]").fill("0");
    open.locator("[type=submit]").click();
    assertThat(open.locator(".problem")).containsText("minutes");
    open.locator("[name=minutes]").fill("30");
    open.locator("[name=reason]").fill("the mat is being changed");
    open.locator("[type=submit]").click();
    assertThat(open).hasCount(0);
    assertThat(page.locator("#no-open")).isVisible();
    assertThat(menu).not().containsText("open");

    page.locator("#tab-shelved").click();
    Locator shelved = page.locator("#shelved-list [data-kind=cold]");
    assertThat(shelved).containsText(Pattern.compile("until .*\\d\\d:\\d\\d by Ada"));
    shelved.locator("button").click();
    assertThat(shelved).hasCount(0);

    assertThat(menu).containsText("(1 open)");
    page.locator("#tab-open").click();
    open.locator("button.acknowledge").click();
    assertThat(open).containsText("by Ada");

    page.locator("#tab-history").click();
    Locator past = page.locator("#past [data-kind=cold]");
    past.locator("summary").press("Enter");
    Locator transitions = past.locator(".transitions");
    assertThat(transitions).containsText("Paused by Ada: the mat is being changed");
    assertThat(transitions.locator("[data-what=raised]")).hasCount(1);
    assertThat(transitions.locator("[data-what=unshelved]")).containsText("by Ada");
    assertThat(transitions.locator("[data-what=acknowledged]")).containsText("by Ada");
    browser.assertNothingWrong(page);
  }

  @Test
  void aDeadbandIsTypedInFahrenheit() {
    String jar = grower.container("Jar");
    Page page = browser.page(390);
    page.navigate(service.url() + "/container.html?id=" + jar + "#rules");
    Locator deadband = page.locator("[name='cold.deadband']");
    assertThat(deadband).hasAttribute("placeholder", "0.3");
    page.locator("#head .units").click();
    assertThat(deadband).hasAttribute("placeholder", "0.54");
    deadband.fill("0,9");
    page.locator("#rules [type=submit]").click();
    assertThat(page.locator("#rules .done")).containsText("Saved");
    assertThat(deadband).hasValue("0.9");
    JsonNode rules = service.api().get("/api/containers/" + jar + "/alert-rules");
    assertEquals(0.5, rules.at("/rules/cold/overrides/deadband").asDouble());
    browser.assertNothingWrong(page);
  }

  @Test
  void figuresAndNotifiersHaveSentences() {
    coldJar();
    Page page = browser.page(390);
    page.navigate(service.url() + "/alerts.html");
    assertThat(page.locator("#open-list [data-kind=cold]")).isVisible();
    page.locator("#tab-figures").click();
    assertThat(page.locator("#figures-place")).containsText("1 alert in the last 7 days");
    assertThat(page.locator("#figures-place table")).containsText("Too cold");

    page.navigate(service.url() + "/alerts.html#notices");
    page.reload();
    assertThat(page.locator("#part-open")).isHidden();
    page.locator("#tab-open").click();
    assertThat(page.locator("#nobody")).containsText("Only open pages are told");
    assertThat(page.locator("#open-list .told")).containsText(WAITS);
    page.locator("#tab-notices").click();
    Locator notifier = page.locator("[data-notifier=page]");
    notifier.locator("button").click();
    assertThat(notifier.locator(".done")).containsText("It arrived");
    browser.assertNothingWrong(page);
  }

  /** Two bags on one mat that failed. */
  @Test
  void alertsOfOneCauseAreAcknowledgedTogether() {
    cold("Bag 1", "bag-1", ",\"heatSource\":\"mat\"");
    cold("Bag 2", "bag-2", ",\"heatSource\":\"mat\"");
    Page page = browser.page(390);
    page.navigate(service.url() + "/alerts.html");
    Locator group = page.locator("#open-list > .group");
    assertThat(group.locator(".group-title")).containsText("2 containers on “mat” are too cold");
    group.locator("button", new Locator.LocatorOptions().setHasText("Acknowledge all")).click();
    assertThat(group).hasCount(0);
    assertThat(page.locator("#open-list > [data-acknowledged=true]")).hasCount(2);
    browser.assertNothingWrong(page);
  }

  private void coldJar() {
    cold("Jar", "jar-1", "");
  }

  private void cold(String name, String node, String more) {
    grower.place(node, grower.container(name, more), Instant.now().minusSeconds(1_200));
    temperatureAgo(node, 15, 30.2);
    temperatureAgo(node, 11, 24.5);
    temperatureAgo(node, 6, 24.3);
    temperatureAgo(node, 1, 24.4);
  }

  private void temperatureAgo(String node, int minutes, double temperatureC) {
    Instant at = Instant.now().minusSeconds(minutes * 60L);
    sensor.send(
        "tepidarium/" + node,
        "{\"temperature\":" + temperatureC + ",\"humidity\":96.5,\"at\":\"" + at + "\"}");
  }
}
