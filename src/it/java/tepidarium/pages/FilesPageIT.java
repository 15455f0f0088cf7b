package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.RunningService;

/** A real browser on the page Files: a file is imported, and exported again. */
class FilesPageIT {
  @TempDir private static Path folder;
  private static RunningService service;
  private static Browser browser;

  @BeforeAll
  static void start() {
    service = RunningService.embedded(folder.resolve("data"));
    browser = Browser.start();
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  @Test
  void aFileIsImportedAndExportedOnThePhone() throws IOException {
    Path file =
        Files.writeString(
            folder.resolve("old-box.csv"),
            "time;temp\n2026-03-01 06:00;29,5\n2026-03-01 06:10;hot\n2026-03-01 06:20;30\n");
    Page page = browser.page(390);
    page.navigate(service.url() + "/files.html");
    page.locator("#file").setInputFiles(file);
    page.locator("#upload button").click();
    Locator one = page.locator(".import");
    assertThat(one).containsText("Line 2: old-box, Sun 1 Mar 2026 06:00, temperature 29.5 °C");
    one.locator("summary").press("Enter");
    one.locator("input[name=zone]").fill("+01:00");
    one.locator("button[type=submit]").click();
    assertThat(one).containsText("Line 2: old-box, Sun 1 Mar 2026 05:00, temperature 29.5 °C");
    one.locator(".profile-name").fill("box");
    one.locator(".save-profile").click();
    assertThat(one.locator(".profile")).hasValue("box");
    browser.assertNothingWrong(page);

    page.reload();
    assertThat(one).containsText("Sun 1 Mar 2026 06:00");
    one.locator("summary").press("Enter");
    one.locator(".profile").selectOption("box");
    assertThat(one).containsText("Line 2: old-box, Sun 1 Mar 2026 05:00, temperature 29.5 °C");
    assertThat(one.locator("input[name=zone]")).hasValue("+01:00");
    one.locator(".remove-profile").click();
    assertThat(one.locator(".profile option")).hasCount(1);
    browser.assertNothingWrong(page);

    one.locator(".start").click();
    assertThat(one.locator(".progress")).hasText("Done: 2 readings stored, 1 row rejected.");
    assertThat(one.locator(".rejected")).isVisible();
    one.locator(".remove").click();
    assertThat(one).hasCount(0);

    page.reload();
    page.locator("#what option[value='container=room']")
        .evaluate("it => it.value = 'sensor=no-such'");
    page.locator("#what").selectOption("sensor=no-such");
    page.locator("#export button").click();
    assertThat(page.locator("#export-problem")).containsText("has no readings");
    assertThat(page).hasURL(service.url() + "/files.html");

    page.locator("#what").selectOption("sensor=old-box");
    Download saved = page.waitForDownload(() -> page.locator("#export button").click());
    assertEquals("old-box-readings.csv", saved.suggestedFilename());
    List<String> lines = Files.readAllLines(saved.path());
    assertEquals(3, lines.size());
    assertTrue(lines.get(1).startsWith("2026-03-01T05:00:00Z,old-box,29.5,"), lines.get(1));
    // The browser reports the refused export on its console.
    browser.complaints().removeIf(complaint -> complaint.contains("status of 400"));
    browser.assertNothingWrong(page);
  }

  @Test
  void theRecordIsTakenOverWholeOrNotAtAll() throws IOException {
    service.api().post("/api/containers", "{\"name\":\"Jar of the record\",\"kind\":\"jar\"}");
    Page page = browser.page(390);
    page.navigate(service.url() + "/files.html");
    Download saved =
        page.waitForDownload(() -> page.getByText("Download the record").first().click());
    assertEquals("tepidarium-record.zip", saved.suggestedFilename());
    Path zip = folder.resolve("mine.zip");
    saved.saveAs(zip);
    take(page, zip);
    assertThat(page.locator("#take-output")).containsText("Containers: 1 row read, nothing new.");

    Path broken = folder.resolve("species.csv");
    take(page, Files.writeString(broken, "species,name\r\n,Fig\r\n"));
    assertThat(page.locator("#take-output [role=alert]")).containsText("Line 2");
    take(page, Files.writeString(broken, "species,name\r\nfig,Fig\r\n"));
    assertThat(page.locator("#take-output")).containsText("Species: 1 row read, 1 new.");

    take(page, Files.writeString(folder.resolve("harvest.csv"), "x\r\n"));
    assertThat(page.locator("#take-output [role=alert]")).containsText("must begin with the name");
    take(page, Files.writeString(folder.resolve("bad.zip"), "no zip"));
    assertThat(page.locator("#take-output [role=alert]")).containsText("is not a zip file");
    browser.complaints().removeIf(complaint -> complaint.contains("status of 400"));
    browser.assertNothingWrong(page);
  }

  private static void take(Page page, Path file) {
    page.locator("#record-file").setInputFiles(file);
    page.locator("#take [type=submit]").click();
  }
}
