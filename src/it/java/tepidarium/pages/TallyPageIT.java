package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A grower with a phone and an empty installation writes a small season down. */
class TallyPageIT extends OnEmptyService {
  private static final double THUMB_PX = 44;
  private static final double PATIENCE_MS = 30_000;
  private static final Integer KEPT_WIDTH = 1600;

  private Page page;

  @BeforeEach
  void openTally() {
    page = browser.page(390);
    page.setDefaultTimeout(PATIENCE_MS);
    page.navigate(service.url() + "/tally.html");
  }

  @Test
  void aSeasonIsEnteredFromNothing() {
    setUp();
    checkAndUndo();
    correctAnOldCheck();
    countWhileTheConnectionIsDown();
    splitPotOnAndJoin();
    lookAtTheRecord();
    compare();
    name();
    measureRootsWithAPicture();
    assertNothingWrong();
  }

  /**
   * At 640 by 840 pixels and 200 %, and on a phone: the control with the focus is never covered.
   */
  @Test
  void theCheckSheetIsUsableByKeyboardAtTwiceTheSize() {
    setUp();
    for (int[] window : new int[][] {{320, 420}, {390, 700}}) {
      page.setViewportSize(window[0], window[1]);
      page.reload();
      page.locator("[data-group='1-1'] [data-act=check]").press("Enter");
      page.locator("#sheet summary").press("Enter");
      page.locator("#sheet-title").focus();
      List<String> order = new ArrayList<>();
      for (int i = 0; i < 30 && !order.contains("submit"); i++) {
        page.keyboard().press("Tab");
        order.add((String) page.evaluate(FOCUS));
      }
      assertTrue(order.contains("submit"), order.toString());
      assertEquals(List.of(), order.stream().filter(one -> one.startsWith("covered")).toList());
      Browser.assertNoSidewaysScrolling(page);
      page.keyboard().press("Escape");
      assertThat(page.locator("#sheet")).isHidden();
    }
  }

  /**
   * The type of the control that has the focus; covered if another element lies over its middle.
   */
  private static final String FOCUS =
      """
      () => {
        const one = document.activeElement;
        const box = one.getBoundingClientRect();
        const top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
        const seen = top !== null && (one.contains(top) || top.contains(one));
        return (seen && !top.matches('.actions') ? '' : 'covered ') + (one.type ?? one.tagName);
      }
      """;

  private void setUp() {
    says("#start", "Nothing sown yet");
    make("container", "#tally-container", "Jar 1");
    page.locator("#start-species > summary").press("Enter");
    page.locator("#species-form [name=name]").fill("Paw paw");
    page.locator("#species-form [type=submit]").click();
    says("#said", "Added: Paw paw");
    Locator lot = page.locator("#new-lot");
    lot.locator("[name=species]").selectOption("Paw paw");
    lot.locator("[name=seeds]").fill("40");
    lot.locator("[name=gatheredAt]").fill(daysAgo(12).toLocalDate().toString());
    lot.locator("[type=submit]").click();
    says("#said", "The lot is added");
    sow("jar-1", 20, 10);
    says("[data-sowing='1'] .fraction", "20 seeds sown, not looked at yet");
    says("#due", "Jar 1");
  }

  /** The form of a step is opened by what went before it, or by hand. */
  private void make(String step, String form, String name) {
    Locator details = page.locator("#start-" + step);
    if (details.getAttribute("open") == null) {
      details.locator("> summary").press("Enter");
    }
    page.locator(form + " [name=name]").fill(name);
    page.locator(form + " [type=submit]").click();
    says("#said", name);
  }

  private void sow(String container, int seeds, int daysAgo) {
    Locator sowing = page.locator("#new-sowing");
    if (!sowing.isVisible()) {
      page.locator("#start-sowing > summary").press("Enter");
    }
    sowing.locator("[name=container1]").selectOption(container);
    sowing.locator("[name=seeds1]").fill(String.valueOf(seeds));
    sowing.locator("[name=at]").fill(daysAgo(daysAgo).toString());
    sowing.locator("[type=submit]").click();
    says("#said", "Sown");
  }

  private static LocalDateTime daysAgo(int days) {
    return LocalDateTime.now(ZoneId.systemDefault())
        .minusDays(days)
        .truncatedTo(ChronoUnit.MINUTES);
  }

  private void checkAndUndo() {
    openCheck("1-1");
    press("germinated", 3);
    press("culled", 1);
    page.locator("#sheet [name=reason]").selectOption("mould");
    write();
    says("[data-sowing='1'] .fraction", "3 of 20 germinated: 15 % (95 %: 5 to 36 %)");
    says("[data-group='1-1'] .counts", "16 ungerminated, 3 germinated");
    page.locator("#said button").click();
    says("#sheet", "Withdraw this entry?");
    write();
    says("[data-sowing='1'] .fraction", "20 seeds sown, not looked at yet");
    says("[data-group='1-1'] .counts", "20 ungerminated");
  }

  private void correctAnOldCheck() {
    openCheck("1-1");
    press("germinated", 3);
    page.locator("#sheet details > summary").press("Enter");
    page.locator("#sheet [name=at]").fill(daysAgo(5).toString());
    write();
    says("[data-sowing='1'] .fraction", "3 of 20 germinated");
    page.locator("[data-sowing='1'] details > summary").first().press("Enter");
    Locator check =
        page.locator(".record li")
            .filter(new Locator.FilterOptions().setHasText("3 newly germinated"))
            .filter(new Locator.FilterOptions().setHas(page.getByText("Correct")));
    check.first().getByText("Correct").click();
    says("#sheet", "Correct this entry");
    press("germinated", 1);
    write();
    says("[data-sowing='1'] .fraction", "4 of 20 germinated");
    says(".record", "Corrected: no reason given");
  }

  private void countWhileTheConnectionIsDown() {
    page.context().setOffline(true);
    openCheck("1-1");
    press("germinated", 2);
    write();
    says("#unsent", "1 entry waiting to be sent");
    says("[data-sowing='1'] .fraction", "6 of 20 germinated");
    assertEquals(4, sowing().path("everGerminated").asInt());
    page.context().setOffline(false);
    await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> sowing().path("everGerminated").asInt() == 6);
    assertThat(page.locator("#unsent")).isHidden();
    int times = 0;
    for (JsonNode entry : service.api().get("/api/sowings/1/entries")) {
      times += entry.at("/check/germinated").asInt() == 2 ? 1 : 0;
    }
    assertEquals(1, times, "it must have been written down once");
  }

  private JsonNode sowing() {
    return service.api().get("/api/sowings/1");
  }

  private void splitPotOnAndJoin() {
    make("container", "#tally-container", "Root bag");
    page.locator("[data-group='1-1'] [data-act=move]").click();
    page.locator("#sheet [name=to]").selectOption("root-bag");
    page.locator("#sheet [name=ungerminated]").fill("0");
    write();
    says("[data-group='1-2']", "Root bag");
    says("[data-group='1-2'] .counts", "0 ungerminated, 6 germinated");
    openCheck("1-2");
    press("pottedOn", 2);
    write();
    says("[data-sowing='1'] .tally", "2 potted on (2 alive)");
    page.locator("[data-group='1-2'] [data-act=move]").click();
    page.locator("#sheet [name=to]").selectOption("jar-1");
    page.locator("#sheet [name=joinTo]").selectOption("1-1");
    write();
    says("[data-group='1-1'] .counts", "14 ungerminated, 4 germinated");
    JsonNode told = sowing();
    int seeds = 0;
    for (String place : new String[] {"ungerminated", "germinated", "culled", "potted"}) {
      seeds += told.path(place).asInt();
    }
    assertEquals(20, seeds);
  }

  private void lookAtTheRecord() {
    says(".record", "moved to Root bag");
    assertThat(page.locator("svg.curve")).isVisible();
    says(".next", "six weeks");
    Locator form = page.locator(".record-place form");
    form.locator("input").fill("5");
    form.locator("[type=submit]").click();
    says(".record-place form", "Sow about");
    // Draws the record again, as an entry does. What was asked stays.
    form.evaluate("before => before.setAttribute('data-before', '')");
    page.locator("#head .units").click();
    Locator after = page.locator(".record-place form:not([data-before])");
    assertThat(after.locator("input")).hasValue("5");
    assertThat(after).containsText("Sow about");
    page.locator("#head .units").click();
  }

  private void compare() {
    sow("root-bag", 10, 9);
    Locator pick = page.locator("#compare-second");
    pick.selectOption("2");
    page.locator("#compare-first").selectOption("1");
    page.locator("#compare-form [type=submit]").click();
    says("#comparison", "Nothing to compare yet.");
    says("#comparison", "Nobody has looked at the seeds of");
  }

  private void measureRootsWithAPicture() {
    openCheck("1-1");
    page.locator("#sheet details > summary").press("Enter");
    page.locator("#sheet [name=rootLengthsCm]").fill("long");
    page.locator("#sheet [type=submit]").click();
    says("#sheet", "“long” is not a length");
    page.locator("#sheet [name=rootLengthsCm]").fill("2,5; 3");
    page.locator("#sheet [name=picture]").setInputFiles(picture());
    write();
    says("#said", "roots of 2.5; 3 cm");
    await().atMost(Duration.ofSeconds(30)).until(() -> KEPT_WIDTH.equals(shownWidth()));
    assertEquals(2.5, lastEntry().at("/check/rootLengthsCm/0").asDouble());
    assertTrue(lastEntry().path("photo").asBoolean());
  }

  /**
   * A picture is fetched when it comes into sight; the record around it may be drawn anew
   * meanwhile.
   */
  private Object shownWidth() {
    return page.evaluate(
        "() => { const shown = document.querySelector('.record .picture img');"
            + " shown?.scrollIntoView(); return shown?.naturalWidth ?? 0; }");
  }

  private JsonNode lastEntry() {
    JsonNode entries = service.api().get("/api/sowings/1/entries");
    return entries.get(entries.size() - 1);
  }

  /** Larger than the page keeps it, so that it has to be made smaller. */
  private Path picture() {
    Path file = data.resolve("roots.png");
    try {
      ImageIO.write(
          new BufferedImage(2000, 1000, BufferedImage.TYPE_INT_RGB), "png", file.toFile());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return file;
  }

  /** A name that is taken away, and one that stays. The choice of a comparison tells the places. */
  private void name() {
    page.locator("[data-sowing='1'] .names").click();
    page.locator("#sheet [name=lotName]").fill("From the hill");
    page.locator("#sheet [name=accession]").fill("AC 12/7");
    page.locator("#sheet [name='group-1-1']").fill("North");
    page.locator("#sheet [name=sowingName]").fill("Early");
    write();
    says("[data-sowing='1'] h3", "Early, sowing 1");
    says("[data-sowing='1'] .about", "Lot 1, From the hill, AC 12/7");
    says("[data-group='1-1'] .counts", "group 1-1 “North”");
    says("#compare-first option[value='1']", "Early, sowing 1, in Jar 1");
    page.locator("[data-sowing='1'] .names").click();
    page.locator("#sheet [name='group-1-1']").fill("");
    write();
    says("[data-group='1-1'] .counts", "group 1-1: ");
    says("[data-sowing='1'] h3", "Early");
  }

  private void openCheck(String group) {
    page.locator("[data-group='" + group + "'] [data-act=check]").click();
    assertThat(page.locator("#sheet")).isVisible();
  }

  private void press(String counter, int times) {
    Locator plus = page.locator("#sheet [data-counter=" + counter + "] button").last();
    BoundingBox box = plus.boundingBox();
    assertTrue(box.width >= THUMB_PX && box.height >= THUMB_PX, "too small for a thumb");
    for (int i = 0; i < times; i++) {
      plus.click();
    }
  }

  private void write() {
    page.locator("#sheet [type=submit]").click();
    assertThat(page.locator("#sheet")).isHidden();
  }

  private void says(String place, String words) {
    assertThat(page.locator(place).first()).containsText(words);
  }

  /**
   * Of a connection that is down, and of the table that was refused, the browser complains itself.
   */
  private void assertNothingWrong() {
    List<String> complaints =
        browser.complaints().stream()
            .filter(text -> !text.contains("ERR_INTERNET") && !text.contains("status of 400"))
            .toList();
    assertEquals(List.of(), complaints);
    Browser.assertNoSidewaysScrolling(page);
  }
}
