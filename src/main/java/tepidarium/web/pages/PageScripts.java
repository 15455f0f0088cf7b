package tepidarium.web.pages;

import io.javalin.http.ContentType;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tepidarium.web.NotFound;

/**
 * Serves the script of each page in each language. Each is joined when it is first requested, and
 * then kept.
 */
final class PageScripts {
  private static final Pattern FILE = Pattern.compile("([a-z-]+)\\.js");

  private final Map<String, byte[]> byAddress = new ConcurrentHashMap<>();

  /** Such as {@code /scripts/en/alerts.js}. */
  static String address(String page, String language) {
    return Pages.SCRIPTS + language + '/' + page + ".js";
  }

  void send(Context ctx) {
    Matcher file = FILE.matcher(ctx.pathParam("file"));
    String language = ctx.pathParam("language");
    if (!file.matches()
        || !PageFrame.exists(file.group(1))
        || !PageTexts.LANGUAGES.contains(language)) {
      throw new NotFound("there is no script " + ctx.path());
    }
    byte[] script =
        byAddress.computeIfAbsent(
            address(file.group(1), language),
            address -> script(file.group(1), language).getBytes(StandardCharsets.UTF_8));
    Pages.send(ctx, ContentType.TEXT_JS, script);
  }

  /** The script of a page that exists. */
  static String script(String page, String language) {
    return PageScript.join(PageFrame.modules(page), language);
  }
}
