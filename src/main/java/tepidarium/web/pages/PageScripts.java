package tepidarium.web.pages;

import io.javalin.http.ContentType;
import io.javalin.http.Context;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tepidarium.web.NotFound;

/** Serves the script of each page. Each is joined when it is first requested, and then kept. */
final class PageScripts {
  private static final Pattern FILE = Pattern.compile("([a-z-]+)\\.js");

  private final Map<String, String> byPage = new ConcurrentHashMap<>();

  void send(Context ctx) {
    Matcher file = FILE.matcher(ctx.pathParam("file"));
    if (!file.matches() || !PageFrame.exists(file.group(1))) {
      throw new NotFound("there is no script " + ctx.path());
    }
    Pages.send(ctx, ContentType.TEXT_JS, script(file.group(1)));
  }

  /** The script of a page that exists. */
  String script(String page) {
    return byPage.computeIfAbsent(page, name -> PageScript.join(PageFrame.modules(name)));
  }
}
