package tepidarium.web.pages;

import io.javalin.config.JavalinConfig;
import io.javalin.config.RoutesConfig;
import io.javalin.http.ContentType;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.staticfiles.Location;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;

/**
 * Serves the pages with their style sheets, scripts and pictures. The HTML of each page is built
 * once at the start in each language, from the frame, the page's own file and its texts. Browsers
 * cache all files and revalidate them with an ETag.
 */
public final class Pages {
  /** Names of the pages; each has a folder and an address, such as {@code /alerts.html}. */
  private static final List<String> NAMES =
      List.of(
          "alerts",
          "charts",
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
          "settings",
          "sites",
          "tally");

  private static final String FIRST_PAGE = "shelf";

  /** Begins the address of the script of each page. */
  static final String SCRIPTS = "/scripts/";

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

  /**
   * Adds the pages.
   *
   * @param setup what is the same on every page
   */
  public static void add(JavalinConfig config, PageSetup setup) {
    config.staticFiles.add(
        files -> {
          files.hostedPath = "/";
          files.directory = "/pages";
          files.location = Location.CLASSPATH;
          files.headers = HEADERS;
          // HTML files are parts of pages and are served only within the frame.
          files.skipFileFunction = request -> request.getRequestURI().endsWith(".html");
        });
    NAMES.forEach(name -> add(config.routes, "/" + name + ".html", inEachLanguage(name, setup)));
    Map<String, String> first = inEachLanguage(FIRST_PAGE, setup);
    add(config.routes, "/", first);
    add(config.routes, "/index.html", first);
    new DocumentPages(setup).add(config.routes);
    PageScripts scripts = new PageScripts();
    config.routes.get(SCRIPTS + "{language}/{file}", scripts::send);
    List<String> kept = new ArrayList<>(List.of(FIRST_PAGE));
    NAMES.stream().filter(name -> !name.equals("login")).forEach(kept::add);
    new OfflineFiles(kept).add(config.routes);
  }

  private static Map<String, String> inEachLanguage(String name, PageSetup setup) {
    return PageTexts.LANGUAGES.stream()
        .collect(
            Collectors.toMap(
                language -> language, language -> PageFrame.page(name, language, setup)));
  }

  private static void add(RoutesConfig routes, String address, Map<String, String> byLanguage) {
    routes.get(address, ctx -> send(ctx, byLanguage));
    routes.head(address, ctx -> send(ctx, byLanguage));
  }

  private static void send(Context ctx, Map<String, String> byLanguage) {
    String language = ReaderLanguage.of(ctx);
    send(ctx, language, Objects.requireNonNull(byLanguage.get(language)));
  }

  /** Sends a page in one language, or status 304 if the browser has the same version. */
  static void send(Context ctx, String language, String html) {
    ctx.header("Content-Language", language);
    ctx.header("Vary", "Accept-Language, Cookie");
    send(ctx, ContentType.TEXT_HTML, html);
  }

  /** Sends a text, or status 304 if the browser has the same version. */
  static void send(Context ctx, ContentType type, String text) {
    send(ctx, type, text.getBytes(StandardCharsets.UTF_8));
  }

  /** Sends a text in UTF-8, or status 304 if the browser has the same version. */
  static void send(Context ctx, ContentType type, byte[] text) {
    HEADERS.forEach(ctx::header);
    String tag = etag(text);
    ctx.header("ETag", tag);
    if (tag.equals(ctx.header("If-None-Match"))) {
      ctx.status(HttpStatus.NOT_MODIFIED);
    } else {
      ctx.contentType(type.getMimeType() + "; charset=utf-8").result(text);
    }
  }

  private static String etag(byte[] text) {
    return '"' + digest(text) + '"';
  }

  /** A digest of a text; texts that differ have other digests. */
  static String digest(String text) {
    return digest(text.getBytes(StandardCharsets.UTF_8));
  }

  private static String digest(byte[] text) {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(text);
      return HexFormat.of().formatHex(Arrays.copyOf(digest, ETAG_BYTES));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
