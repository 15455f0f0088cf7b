package tepidarium.web.pages;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Joins the modules that a page uses to one script, so that a browser asks for one file in place of
 * a hundred. Each module becomes a function that returns what the module exports; modules come
 * after those that they import. Modules of libraries stay files of their own. Of the texts, only
 * those of one language are in it.
 *
 * <p>It reads the statements that the project's own modules use, each at the start of a line:
 * {@code import {a, b as c} from}, {@code import * as a from}, {@code import a from}, and {@code
 * export} before a constant, a function, a class or {@code default}. It refuses any other, and
 * modules that import each other in a circle.
 */
final class PageScript {
  private static final Pattern IMPORT =
      Pattern.compile(
          "^import (?:(\\w+)|\\* as (\\w+)|\\{([^}]*)}) from '([^']+)';$", Pattern.MULTILINE);
  private static final Pattern EXPORT =
      Pattern.compile("^export (const|(?:async )?function\\*?|class) (\\w+)", Pattern.MULTILINE);
  private static final Pattern DEFAULT_EXPORT =
      Pattern.compile("^export default ", Pattern.MULTILINE);
  private static final Pattern OTHER = Pattern.compile("^(import|export)\\b.*", Pattern.MULTILINE);
  private static final Pattern TEXTS = Pattern.compile(".*/texts\\.(\\w+)\\.js");
  private static final String DEFAULT = "$default";

  private final Map<String, String> names = new LinkedHashMap<>();
  private final Set<String> begun = new LinkedHashSet<>();
  private final Set<String> ofLibraries = new LinkedHashSet<>();
  private final StringBuilder joined = new StringBuilder();
  private final String language;

  private PageScript(String language) {
    this.language = language;
  }

  /**
   * Joins modules and all that they import.
   *
   * @param modules paths of the modules that the page starts, such as {@code /shelf/shelf.js}
   * @param language one of {@link PageTexts#LANGUAGES}; the texts of the others become null
   * @throws IllegalStateException if a module is missing or cannot be joined
   */
  static String join(List<String> modules, String language) {
    PageScript script = new PageScript(language);
    modules.forEach(script::add);
    return String.join("", script.ofLibraries) + script.joined;
  }

  /** Adds a module after all that it imports, unless it was added before. Returns its name. */
  private String add(String path) {
    String known = names.get(path);
    if (known != null) {
      return known;
    }
    if (!begun.add(path)) {
      throw new IllegalStateException(path + " imports itself through other modules");
    }
    String source = PageTexts.withoutHtml(PageFrame.resource("/pages" + path));
    String body = IMPORT.matcher(source).replaceAll(found -> quoted(imported(found, path)));
    List<String> exports = new ArrayList<>();
    body =
        EXPORT
            .matcher(body)
            .replaceAll(
                found -> {
                  exports.add(found.group(2));
                  return quoted(found.group(1) + ' ' + found.group(2));
                });
    Matcher defaultExport = DEFAULT_EXPORT.matcher(body);
    if (defaultExport.find()) {
      exports.add("default: " + DEFAULT);
      body = defaultExport.replaceFirst(quoted("const " + DEFAULT + " = "));
    }
    Matcher other = OTHER.matcher(body);
    if (other.find()) {
      throw new IllegalStateException(path + " cannot be joined: " + other.group());
    }
    String name = "$" + (names.size() + 1);
    names.put(path, name);
    joined
        .append("// ")
        .append(path)
        .append("\nconst ")
        .append(name)
        .append(" = (() => {\n")
        .append(body)
        .append("return { ")
        .append(String.join(", ", exports))
        .append(" };\n})();\n");
    return name;
  }

  /** What stands in place of an import: a constant with what the other module returned. */
  private String imported(MatchResult statement, String path) {
    String from = statement.group(4);
    if (!from.startsWith(".")) {
      ofLibraries.add(statement.group() + '\n');
      return "";
    }
    if (isOtherLanguage(from)) {
      return "const " + statement.group(1) + " = null;";
    }
    String module = add(Path.of(path).resolveSibling(from).normalize().toString());
    if (statement.group(1) != null) {
      return "const { default: " + statement.group(1) + " } = " + module + ';';
    }
    if (statement.group(2) != null) {
      return "const " + statement.group(2) + " = " + module + ';';
    }
    String parts = statement.group(3).replace(" as ", ": ").replaceAll("\\s+", " ");
    return "const {" + parts + "} = " + module + ';';
  }

  private boolean isOtherLanguage(String module) {
    Matcher texts = TEXTS.matcher(module);
    return texts.matches()
        && PageTexts.LANGUAGES.contains(texts.group(1))
        && !language.equals(texts.group(1));
  }

  private static String quoted(String replacement) {
    return Matcher.quoteReplacement(replacement);
  }
}
