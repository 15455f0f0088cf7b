package tepidarium.web.pages;

import io.javalin.config.RoutesConfig;
import io.javalin.http.ContentType;
import io.javalin.http.Context;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.web.Json;

/**
 * Serves what lets browsers install the pages and use them without a network: the manifest (W3C Web
 * Application Manifest) and the service worker (W3C Service Workers). The worker begins with the
 * list of all files that it keeps, and with their common digest: a browser replaces the worker, and
 * with it the files, as soon as one of them differs.
 */
final class OfflineFiles {
  private static final String WORKER = "/pages/shared/worker.js";
  private static final Pattern FILE =
      Pattern.compile("(?:href=|src=|from )[\"'](/(?:[a-z-]+/)*[A-Za-z.-]+\\.(?:css|js|svg))[\"']");

  private static final String MANIFEST =
      """
      {
        "id": "/",
        "name": "Tepidarium",
        "short_name": "Tepidarium",
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "background_color": "#f6efe3",
        "theme_color": "#983f22",
        "icons": [{"src": "/shared/mark.svg", "sizes": "any", "type": "image/svg+xml"}]
      }
      """;

  private final List<String> pages;
  private @Nullable String worker;

  /** What the worker begins with: the version of the files that it keeps, and their addresses. */
  record Offline(String version, Set<String> files) {}

  /**
   * @param pages names of the pages that are kept; the first one is at the root
   */
  OfflineFiles(List<String> pages) {
    this.pages = pages;
  }

  void add(RoutesConfig routes) {
    routes.get("/worker.js", ctx -> Pages.send(ctx, ContentType.TEXT_JS, worker()));
    routes.get("/manifest.webmanifest", OfflineFiles::manifest);
  }

  private static void manifest(Context ctx) {
    Pages.send(ctx, ContentType.APPLICATION_JSON, MANIFEST);
    ctx.contentType("application/manifest+json; charset=utf-8");
  }

  /** Made at the first request, because it needs the scripts of all pages. */
  private synchronized String worker() {
    String made = worker;
    if (made == null) {
      made = make();
      worker = made;
    }
    return made;
  }

  private String make() {
    // Digests in place of the texts, which together would take a large part of a small heap.
    StringBuilder contents = new StringBuilder();
    Set<String> files = new TreeSet<>();
    for (String page : pages) {
      files.add(page.equals(pages.get(0)) ? "/" : "/" + page + ".html");
      for (String language : PageTexts.LANGUAGES) {
        addFilesOf(PageFrame.page(page, language), files, contents);
        addFilesOf(PageScripts.script(page, language), files, contents);
      }
    }
    for (String file : files) {
      String resource = "/pages" + file;
      if (!file.startsWith(Pages.SCRIPTS) && OfflineFiles.class.getResource(resource) != null) {
        contents.append(Pages.digest(PageFrame.resource(resource)));
      }
    }
    String code = PageFrame.resource(WORKER);
    Offline offline = new Offline(Pages.digest(contents + code), files);
    return "self.offline = " + Json.write(offline) + ";\n" + code;
  }

  private static void addFilesOf(String text, Set<String> files, StringBuilder contents) {
    contents.append(Pages.digest(text));
    Matcher named = FILE.matcher(text);
    while (named.find()) {
      files.add(named.group(1));
    }
  }
}
