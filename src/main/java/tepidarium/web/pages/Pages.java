package tepidarium.web.pages;

import io.javalin.config.JavalinConfig;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.staticfiles.Location;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;

/**
 * Serves the pages with their style sheets, scripts and pictures. The HTML of each page is built
 * once at the start, from the frame and the page's own file. Browsers cache all files and
 * revalidate them with an ETag.
 */
public final class Pages {
  /** Names of the pages; each has a folder and an address, such as {@code /alerts.html}. */
  private static final List<String> NAMES =
      List.of(
          "alerts",
          "container",
          "files",
          "heat-bench",
          "labels",
          "login",
          "mappings",
          "people",
          "rejects",
          "season",
          "sensors",
          "service",
          "tally");

  private static final String FIRST_PAGE = "shelf";
  private static final int ETAG_BYTES = 12;
  private static final Map<String, String> HEADERS =
      Map.of(
          "Cache-Control",
          "no-cache",
          "Content-Security-Policy",
          "default-src 'self'; object-src 'none'; frame-ancestors 'none'; base-uri 'none';"
              + " form-action 'self'",
          "Referrer-Policy",
          "same-origin");

  private Pages() {}

  public static void add(JavalinConfig config) {
    config.staticFiles.add(
        files -> {
          files.hostedPath = "/";
          files.directory = "/pages";
          files.location = Location.CLASSPATH;
          files.headers = HEADERS;
          // HTML files are parts of pages and are served only within the frame.
          files.skipFileFunction = request -> request.getRequestURI().endsWith(".html");
        });
    NAMES.forEach(name -> add(config.routes, "/" + name + ".html", PageFrame.page(name)));
    String first = PageFrame.page(FIRST_PAGE);
    add(config.routes, "/", first);
    add(config.routes, "/index.html", first);
    new DocumentPages().add(config.routes);
  }

  private static void add(RoutesConfig routes, String address, String html) {
    routes.get(address, ctx -> send(ctx, html));
    routes.head(address, ctx -> send(ctx, html));
  }

  /** Sends a page, or status 304 if the browser has the same version. */
  public static void send(Context ctx, String html) {
    HEADERS.forEach(ctx::header);
    String tag = etag(html);
    ctx.header("ETag", tag);
    if (tag.equals(ctx.header("If-None-Match"))) {
      ctx.status(HttpStatus.NOT_MODIFIED);
    } else {
      ctx.html(html);
    }
  }

  private static String etag(String html) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(html.getBytes(StandardCharsets.UTF_8));
      return '"' + HexFormat.of().formatHex(Arrays.copyOf(digest, ETAG_BYTES)) + '"';
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
