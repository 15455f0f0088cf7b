package tepidarium.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.commonmark.Extension;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.Heading;
import org.commonmark.node.Node;
import org.commonmark.parser.Parser;
import org.commonmark.renderer.html.HtmlRenderer;
import org.commonmark.renderer.text.TextContentRenderer;

/**
 * Serves {@code /figures.html}, which explains every figure on every page. The text is {@code
 * src/docs/figures.md}, converted from Markdown when it is asked for.
 */
final class FiguresPage {
  private static final String TEXT = "/docs/figures.md";
  private static final String TEMPLATE = "/pages/figures.html";
  private static final String PLACE = "<!-- figures.md -->";

  private final Map<String, String> headers;

  FiguresPage(Map<String, String> headers) {
    this.headers = Map.copyOf(headers);
  }

  void add(RoutesConfig routes) {
    routes.get("/figures.html", this::page);
  }

  private void page(Context ctx) {
    headers.forEach(ctx::header);
    ctx.html(resource(TEMPLATE).replace(PLACE, html(resource(TEXT))));
  }

  /** Converts Markdown with tables to HTML; every heading gets an id to link to. */
  static String html(String markdown) {
    List<Extension> tables = List.of(TablesExtension.create());
    Node document = Parser.builder().extensions(tables).build().parse(markdown);
    return HtmlRenderer.builder()
        .extensions(tables)
        .attributeProviderFactory(
            context ->
                (node, tag, attributes) -> {
                  if (node instanceof Heading) {
                    attributes.put("id", id(node));
                  }
                })
        .build()
        .render(document);
  }

  /** The words of a heading in small letters, joined by hyphens. */
  private static String id(Node heading) {
    String words = TextContentRenderer.builder().build().render(heading);
    return words.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
  }

  private static String resource(String name) {
    try (InputStream stream = FiguresPage.class.getResourceAsStream(name)) {
      if (stream == null) {
        throw new IllegalStateException(name + " is missing from the program");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + name, e);
    }
  }
}
