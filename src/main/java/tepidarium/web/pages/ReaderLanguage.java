package tepidarium.web.pages;

import io.javalin.http.Context;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Chooses the language of a page: the one that the reader chose with the switch in the foot, which
 * is in the cookie {@code language}; else the browser's preference (RFC 9110, Accept-Language).
 */
public final class ReaderLanguage {
  private static final String COOKIE = "language";

  private ReaderLanguage() {}

  /** One of {@link PageTexts#LANGUAGES}. */
  public static String of(Context ctx) {
    String chosen = ctx.cookie(COOKIE);
    return chosen != null && PageTexts.LANGUAGES.contains(chosen)
        ? chosen
        : preferred(ctx.header("Accept-Language"));
  }

  /** The best language for an Accept-Language header; English if none fits or it is malformed. */
  static String preferred(@Nullable String header) {
    if (header == null) {
      return PageTexts.LANGUAGES.get(0);
    }
    try {
      List<Locale.LanguageRange> wanted = Locale.LanguageRange.parse(header);
      String best = Locale.lookupTag(wanted, PageTexts.LANGUAGES);
      return best == null ? PageTexts.LANGUAGES.get(0) : best;
    } catch (IllegalArgumentException e) {
      return PageTexts.LANGUAGES.get(0);
    }
  }
}
