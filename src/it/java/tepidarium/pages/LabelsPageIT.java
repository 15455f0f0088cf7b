package tepidarium.pages;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.RunningService;

/** 25 containers, the first with a long name and markup in it and 20 seeds. */
class LabelsPageIT {
  private static final Pattern PAPER = Pattern.compile("/Type\\s*/Page\\b");
  private static final String LONG_NAME = "Jar <b>one</b> on the upper shelf " + "W".repeat(26);
  private static final String SHORT_ID = "box-2";

  @TempDir static Path data;
  private static RunningService service;
  private static Browser browser;
  private static String jar;

  @BeforeAll
  static void start() {
    service = RunningService.embedded(data);
    browser = Browser.start();
    Grower grower = new Grower(service.api());
    jar = grower.container(LONG_NAME);
    for (int i = 2; i <= 25; i++) {
      grower.container("Box " + i);
    }
    String gathered = "\"gatheredAt\":\"" + Instant.now().minus(Duration.ofDays(9)) + "\"";
    String species = service.api().get("/api/species").at("/0/id").asText();
    service
        .api()
        .post(
            "/api/lots",
            "{\"species\":\"" + species + "\",\"seeds\":60,\"from\":\"plant\"," + gathered + "}");
    sow(jar, 20);
    sow(SHORT_ID, 10);
    sow(SHORT_ID, 5);
  }

  private static void sow(String container, int seeds) {
    service
        .api()
        .post(
            "/api/sowings",
            "{\"lot\":1,\"groups\":[{\"container\":\"%s\",\"seeds\":%d}],\"at\":\"%s\"}"
                .formatted(container, seeds, Instant.now().minus(Duration.ofDays(5))));
  }

  @AfterAll
  static void stop() {
    browser.close();
    service.close();
  }

  private static Page open(int width, String address) {
    Page page = browser.page(width);
    page.navigate(service.url() + address);
    return page;
  }

  @Test
  void labelsArePrintedOnAsManySheetsAsNeeded() {
    Page page = open(1280, "/labels.html?container=" + jar);
    assertThat(page.locator("#count")).hasText("1 label on 1 sheet.");
    assertThat(page.locator("#loopback")).containsText("A phone cannot open 127.0.0.1");
    assertEquals(1, printed(page));
    page.locator("#every").click();
    assertThat(page.locator("#count")).hasText("25 labels on 2 sheets.");
    assertEquals(2, printed(page));
    page.locator("[name=container][value=box-25]").uncheck();
    assertEquals(1, printed(page));
    page.locator("#first").fill("2");
    assertThat(page.locator("#count")).hasText("24 labels on 2 sheets.");
    assertEquals(2, printed(page));
    browser.assertNothingWrong(page);
  }

  private static long printed(Page page) {
    byte[] pdf =
        page.pdf(new Page.PdfOptions().setPreferCSSPageSize(true).setPrintBackground(true));
    return PAPER.matcher(new String(pdf, StandardCharsets.ISO_8859_1)).results().count();
  }

  @Test
  void aLongNameWithMarkupStaysWithinItsLabelAndItsCodeIsRead()
      throws IOException, ReaderException {
    Page page = open(390, "/labels.html?container=" + jar);
    Locator label = page.locator(".label");
    assertThat(label).containsText("Jar <b>one</b>");
    assertThat(label).containsText("20 seeds, lot 1");
    assertThat(label.locator("b")).hasCount(0);
    assertEquals(
        true,
        label.evaluate(
            "label => [...label.querySelectorAll('.words p, img')].every((part) => part.getBoundingClientRect().right <= label.getBoundingClientRect().right && part.getBoundingClientRect().bottom <= label.getBoundingClientRect().bottom)"));
    assertEquals(264.6, label.boundingBox().width, 0.5, "70 mm at 96 to the inch");
    assertEquals(139.8, label.boundingBox().height, 0.5, "37 mm");
    browser.assertNothingWrong(page);
    // As large as the window, because a printer has three times as many dots as a screen.
    page.navigate(service.url() + label.locator("img").getAttribute("src"));
    assertEquals(link(jar), read(page.screenshot()));
  }

  private static String link(String container) {
    for (JsonNode label : service.api().get("/api/labels").path("labels")) {
      if (label.path("container").asText().equals(container)) {
        return label.path("link").asText();
      }
    }
    throw new AssertionError("no label of " + container);
  }

  private static String read(byte[] png) throws IOException, ReaderException {
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(png));
    int width = image.getWidth();
    int height = image.getHeight();
    int[] pixels = image.getRGB(0, 0, width, height, null, 0, width);
    RGBLuminanceSource picture = new RGBLuminanceSource(width, height, pixels);
    // Without the hint it looks for a code in a photograph, and misses some 4 of 1,000 clean ones.
    return new QRCodeReader()
        .decode(
            new BinaryBitmap(new HybridBinarizer(picture)),
            Map.of(DecodeHintType.PURE_BARCODE, true))
        .getText();
  }

  /** The scan and the tap on the link that the phone shows; then two taps more. */
  @Test
  void aScanAndThreeTapsRecordOneGerminatedSeed() {
    Page page = browser.page(390);
    page.navigate(link(jar));
    assertThat(page.locator("#sheet-title")).containsText("Jar <b>one</b>");
    page.locator("[aria-label='One more newly germinated']").click();
    page.getByText("Write it down").click();
    assertThat(page.locator("#sheet")).isHidden();
    await()
        .atMost(Duration.ofSeconds(10))
        .untilAsserted(
            () ->
                assertEquals(
                    1, service.api().get("/api/sowings/1").path("everGerminated").asInt()));
    assertTrue(page.url().endsWith("/tally.html"), page.url());
    browser.assertNothingWrong(page);
  }

  @Test
  void ofSeveralGroupsOneIsChosen() {
    Page page = browser.page(390);
    page.navigate(link(SHORT_ID));
    assertThat(page.locator("#scanned")).containsText("Box 2");
    page.locator("#scanned [aria-label='Check group 3-1']").click();
    assertThat(page.locator("#sheet .there")).containsText("group 3-1: 5 ungerminated");
    browser.assertNothingWrong(page);
  }

  @Test
  void anEmptyContainerAndAnUnknownOneAreNamed() {
    assertThat(open(390, "/tally.html?container=box-3").locator("#scanned"))
        .containsText("No living seeds in it.");
    assertThat(open(390, "/tally.html?container=nowhere").locator("#scanned"))
        .containsText("There is no such container.");
  }
}
