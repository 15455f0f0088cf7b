package tepidarium.pages;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.Media;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Pattern;

/**
 * A size of paper that pages are printed on, with margins of 12 mm left and right. Sizes: ISO 216
 * and ANSI/ASME Y14.1.
 */
enum Paper {
  A4("A4", 210),
  LETTER("Letter", 215.9);

  private static final double MARGIN_MM = 12;
  private static final double PX_PER_MM = 96 / 25.4;
  private static final int HEIGHT_PX = 900;
  private static final Pattern SHEET = Pattern.compile("/Type\\s*/Page\\b(?!s)");

  /** Visible elements that reach beyond the paper, or whose own text does not fit into them. */
  private static final String CUT_OFF =
      """
      () => {
        dispatchEvent(new Event('beforeprint'));
        const found = [...document.querySelectorAll('main *')].filter((one) => {
          const box = one.getBoundingClientRect();
          if (box.width === 0 || one.closest('.unseen, .uplot')) return false;
          const clips = getComputedStyle(one).overflowX !== 'visible';
          return box.left < -1 || box.right > innerWidth + 1
            || (clips && one.scrollWidth > one.clientWidth + 1);
        }).map((one) => `${one.tagName}.${one.className.baseVal ?? one.className}`);
        dispatchEvent(new Event('afterprint'));
        return found;
      }
      """;

  private final String name;
  private final double widthMm;

  Paper(String name, double widthMm) {
    this.name = name;
    this.widthMm = widthMm;
  }

  /** Prints the page to PDF and counts the sheets. */
  long sheets(Page page) {
    byte[] pdf = page.pdf(new Page.PdfOptions().setFormat(name).setPreferCSSPageSize(false));
    return SHEET.matcher(new String(pdf, StandardCharsets.ISO_8859_1)).results().count();
  }

  /** What does not fit between the margins; leaves the page as wide as the paper. */
  List<?> cutOff(Page page) {
    page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
    page.setViewportSize((int) Math.floor((widthMm - 2 * MARGIN_MM) * PX_PER_MM), HEIGHT_PX);
    return (List<?>) page.evaluate(CUT_OFF);
  }
}
