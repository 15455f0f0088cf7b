package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tepidarium.it.Api;

/** A grower walks past the containers that are due, with the phone in one hand. */
class RoundIT extends OnEmptyService {
  /** Large enough for a wet thumb in the dark, px. */
  private static final double LARGE_PX = 60;

  private Page page;

  @BeforeEach
  void sowInFourJars() {
    Api api = service.api();
    api.post("/api/lots", SeedBodies.lot("cacao"));
    List<String> rooms = List.of("Bench 2", "Bench 1", "Bench 2", "Bench 1");
    for (int i = 1; i <= 4; i++) {
      grower.container("Jar " + i, ",\"room\":\"" + rooms.get(i - 1) + '"');
      // The last one is not due yet.
      api.post("/api/sowings", SeedBodies.sowing(1, "jar-" + i, i == 4 ? 1 : 8 + i));
    }
    page = browser.page(390);
    page.navigate(service.url() + "/tally.html");
  }

  @Test
  void eachContainerTakesOneTapOrTwo() {
    says("#start-round", "Start a round: 3 checks");
    tap("#start-round");
    says("#sheet .place", "1 of 3 · Bench 1");
    says("#sheet h2", "Jar 2");
    // Something germinated: two taps. Nothing new: one. Not now: one.
    tap("#sheet [data-counter=germinated] button:last-of-type");
    tap("#sheet [type=submit]");
    says("#sheet h2", "Jar 3");
    says("#sheet .place", "2 of 3 · Bench 2");
    tap("#sheet .pass-by");
    says("#sheet h2", "Jar 1");
    says("#sheet [type=submit]", "Done");
    tap("#sheet [type=submit]");

    says("#sheet h2", "Round finished");
    says("#sheet", "2 checks written down.");
    says("#sheet li", "Jar 3");
    assertEquals(1, germinated(2));
    assertEquals(0, germinated(1));
    assertEquals(List.of(true, true, false, false), checked());
    tap("#round-again");
    says("#sheet h2", "Jar 3");
    tap("#sheet [type=submit]");
    says("#sheet", "3 checks written down.");
    browser.assertNothingWrong(page);
  }

  @Test
  void aRoundGoesOnAfterAReloadAndAtAScannedLabel() {
    tap("#start-round");
    says("#sheet h2", "Jar 2");
    page.keyboard().press("Escape");
    says("#start-round", "Go on with the round: 3 checks left");
    page.navigate(service.url() + "/tally.html?container=jar-1");
    says("#sheet h2", "Jar 1");
    tap("#sheet [type=submit]");
    says("#sheet h2", "Jar 2");
    tap("#sheet .stop");
    says("#sheet h2", "Round stopped");
    says("#sheet", "2 checks not reached");
    assertEquals(List.of(true, false, false, false), checked());
    browser.assertNothingWrong(page);
  }

  @Test
  void aRoundKeepsToTheChosenRoom() {
    page.locator("#due-room").selectOption("Bench 2");
    says("#start-round", "Start a round: 2 checks");
    assertThat(page.locator("#due .rows li")).hasCount(2);
    tap("#start-round");
    says("#sheet .place", "1 of 2 · Bench 2");
  }

  private void tap(String place) {
    Locator button = page.locator(place);
    assertThat(button).isEnabled();
    if (place.startsWith("#sheet [type") || place.startsWith("#sheet .pass-by")) {
      BoundingBox box = button.boundingBox();
      assertTrue(box.height >= LARGE_PX && box.width >= LARGE_PX, place + " is too small");
    }
    button.click();
  }

  private void says(String place, String words) {
    assertThat(page.locator(place).first()).containsText(words);
  }

  private int germinated(int sowing) {
    return sowing(sowing).path("germinated").intValue();
  }

  private JsonNode sowing(int id) {
    for (JsonNode sowing : service.api().get("/api/tally").path("sowings")) {
      if (sowing.path("id").intValue() == id) {
        return sowing;
      }
    }
    throw new IllegalStateException("no sowing " + id);
  }

  private List<Boolean> checked() {
    return IntStream.rangeClosed(1, 4)
        .mapToObj(id -> !sowing(id).at("/groups/0/lastCheck").isNull())
        .toList();
  }
}
