package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.LuminanceSource;
import com.google.zxing.NotFoundException;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.util.Arrays;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Draws the picture and reads it with another library than the one that made it. */
class QrDrawingTest {
  private static final Pattern SIDE = Pattern.compile("viewBox=\"0 0 (\\d+) \\1\"");
  private static final Pattern RUN = Pattern.compile("M(\\d+) (\\d+)h(\\d+)v1H\\1z");
  private static final int PIXELS_PER_MODULE = 4;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "http://192.168.1.20:8080/tally.html?container=jar-1",
        "https://seeds.example.org/a/b/tally.html?container=a-jar-with-a-name-of-sixty-four-letters-on-the-upper-shelf-2",
        "http://[fe80::1]:8080/tally.html?container=j%C3%A4r"
      })
  void anotherLibraryReadsTheLink(String link) throws ReaderException {
    assertEquals(link, read(QrDrawing.of(link).svg()));
  }

  private static String read(String svg) throws ReaderException {
    Matcher side = SIDE.matcher(svg);
    if (!side.find()) {
      throw NotFoundException.getNotFoundInstance();
    }
    int width = Integer.parseInt(side.group(1)) * PIXELS_PER_MODULE;
    int[] pixels = new int[width * width];
    Arrays.fill(pixels, 0xFFFFFF);
    RUN.matcher(svg).results().forEach(run -> fill(pixels, width, run));
    LuminanceSource picture = new RGBLuminanceSource(width, width, pixels);
    return new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(picture))).getText();
  }

  private static void fill(int[] pixels, int width, MatchResult run) {
    int x = Integer.parseInt(run.group(1)) * PIXELS_PER_MODULE;
    int y = Integer.parseInt(run.group(2)) * PIXELS_PER_MODULE;
    int length = Integer.parseInt(run.group(3)) * PIXELS_PER_MODULE;
    for (int row = y; row < y + PIXELS_PER_MODULE; row++) {
      Arrays.fill(pixels, row * width + x, row * width + x + length, 0);
    }
  }
}
