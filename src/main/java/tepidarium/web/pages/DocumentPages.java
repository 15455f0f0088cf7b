package tepidarium.web.pages;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.commonmark.Extension;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.Heading;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.parser.Parser;
import org.commonmark.renderer.html.HtmlRenderer;
import org.commonmark.renderer.text.TextContentRenderer;
import org.jspecify.annotations.Nullable;
import tepidarium.web.NotFound;

/**
 * Serves the documents in {@code src/docs} as pages: {@code sensors.md} at {@code
 * /docs/sensors.html}. {@code figures.md} is served at {@code /figures.html} as well. Each is
 * converted from Markdown when it is requested.
 */
final class DocumentPages {
  private static final String FOLDER = "/docs/";
  private static final String TEMPLATE = "document";
  private static final String FIGURES = "figures";
  private static final List<Extension> TABLES = List.of(TablesExtension.create());
  private static final Pattern PAGE = Pattern.compile("([a-z-]+)\\.html");
  private static final Pattern FILE = Pattern.compile("([a-z-]+)\\.md(#.*)?");

  private final PageSetup setup;

  DocumentPages(PageSetup setup) {
    this.setup = setup;
  }

  void add(RoutesConfig routes) {
    routes.get("/figures.html", ctx -> send(ctx, FIGURES));
    routes.get(FOLDER + "{page}", this::page);
  }

  private void page(Context ctx) {
    Matcher page = PAGE.matcher(ctx.pathParam("page"));
    if (!page.matches() || !exists(page.group(1))) {
      throw new NotFound("there is no document " + ctx.path());
    }
    send(ctx, page.group(1));
  }

  private void send(Context ctx, String name) {
    String markdown = PageFrame.resource(FOLDER + name + ".md");
    String title = markdown.lines().findFirst().orElse(name).replaceFirst("^# ", "");
    String language = ReaderLanguage.of(ctx);
    Pages.send(
        ctx,
        language,
        PageFrame.page(TEMPLATE, language, setup)
            .replace("<!-- title -->", title)
            .replace("<!-- name -->", name)
            .replace("<!-- text -->", html(markdown)));
  }

  private static boolean exists(String name) {
    return DocumentPages.class.getResource(FOLDER + name + ".md") != null;
  }

  /** Converts Markdown with tables to HTML. Each heading gets an id to link to. */
  static String html(String markdown) {
    return HtmlRenderer.builder()
        .extensions(TABLES)
        .attributeProviderFactory(
            context -> (node, tag, attributes) -> setAttributes(node, attributes))
        .build()
        .render(parsed(markdown));
  }

  static Node parsed(String markdown) {
    return Parser.builder().extensions(TABLES).build().parse(markdown);
  }

  private static void setAttributes(Node node, Map<String, String> attributes) {
    if (node instanceof Heading) {
      attributes.put("id", id(node));
    } else if (node instanceof Link link) {
      String address = address(link.getDestination());
      if (address == null) {
        attributes.remove("href");
      } else {
        attributes.put("href", address);
      }
    }
  }

  /**
   * Converts the target of a link in a document to an address; null for files that are not served.
   */
  private static @Nullable String address(String destination) {
    if (destination.startsWith("#") || destination.startsWith("https://")) {
      return destination;
    }
    Matcher file = FILE.matcher(destination);
    if (!file.matches() || !exists(file.group(1))) {
      return null;
    }
    String fragment = file.group(2);
    return FOLDER + file.group(1) + ".html" + (fragment == null ? "" : fragment);
  }

  /** The words of a heading in small letters, joined by hyphens. */
  private static String id(Node heading) {
    String words = TextContentRenderer.builder().build().render(heading);
    return words.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
  }
}
