package tepidarium.web;

import io.nayuki.qrcodegen.QrCode;

/**
 * A QR code (ISO/IEC 18004) as a drawing, with error correction level M or better. The quiet zone
 * is 4 modules wide, as the standard requires.
 *
 * @param side width and height in modules, with the quiet zone
 * @param path the dark modules as path data of SVG; one unit is one module
 */
public record QrDrawing(int side, String path) {
  private static final int QUIET_ZONE = 4;

  public static QrDrawing of(String text) {
    QrCode code = QrCode.encodeText(text, QrCode.Ecc.MEDIUM);
    StringBuilder path = new StringBuilder();
    for (int y = 0; y < code.size; y++) {
      addRow(path, code, y);
    }
    return new QrDrawing(code.size + 2 * QUIET_ZONE, path.toString());
  }

  public String svg() {
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %1$d %1$d\"".formatted(side)
        + " shape-rendering=\"crispEdges\">"
        + "<rect width=\"%1$d\" height=\"%1$d\" fill=\"#fff\"/>".formatted(side)
        + "<path fill=\"#000\" d=\""
        + path
        + "\"/></svg>";
  }

  /** Adds one rectangle for each run of dark modules of a row. */
  private static void addRow(StringBuilder path, QrCode code, int y) {
    int x = 0;
    while (x < code.size) {
      int start = x;
      while (x < code.size && code.getModule(x, y)) {
        x++;
      }
      if (x > start) {
        path.append('M').append(start + QUIET_ZONE).append(' ').append(y + QUIET_ZONE);
        path.append('h').append(x - start).append("v1H").append(start + QUIET_ZONE).append('z');
      }
      x++;
    }
  }
}
