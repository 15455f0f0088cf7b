package tepidarium.web.server;

import io.javalin.Javalin;
import io.javalin.http.ContentType;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.util.Base64;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.reading.LanguageTexts;
import tepidarium.web.Problem;
import tepidarium.web.ProblemType;
import tepidarium.web.pages.ReaderLanguage;

/**
 * Answers every request with status 503 while the service waits to take over from another one, and
 * while it takes over. A proxy in front of both services then asks the other one. A person reads
 * which one works, in the language of the browser. The check whether the process lives succeeds.
 */
public final class WaitingPages implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(WaitingPages.class);
  private static final String AGAIN_SECONDS = "10";
  private static final String STYLE =
      ":root { color-scheme: light dark }"
          + " body { font: 1.1rem/1.5 system-ui, sans-serif; max-width: 34rem; margin: 10vh auto;"
          + " padding: 0 1rem }";
  private static final String PAGE =
      """
      <!doctype html>
      <html lang="%s">
      <head>
      <meta charset="utf-8">
      <meta name="viewport" content="width=device-width">
      <meta http-equiv="refresh" content="%s">
      <title>%s · Tepidarium</title>
      <style>%s</style>
      </head>
      <body>
      <h1>%s</h1>
      <p>%s</p>
      <p>%s</p>
      </body>
      </html>
      """;

  private final Javalin javalin;
  private volatile Message message = new Message("noDatabase", "");

  /** Why the service waits: the key of a text, and its value. */
  private record Message(String key, String value) {}

  private WaitingPages(WebServer.Address address) {
    javalin =
        Javalin.create(
            config -> {
              WebServer.listen(config, address);
              config.routes.get(
                  "/api/health/live",
                  ctx -> ctx.contentType(ContentType.APPLICATION_JSON).result("{\"live\":true}"));
              // There are no others, so that every other request comes here.
              config.routes.error(HttpStatus.NOT_FOUND.getCode(), this::answer);
            });
  }

  /**
   * Starts the server.
   *
   * @throws IllegalStateException when the server cannot start; the message says why
   */
  public static WaitingPages start(WebServer.Address address) {
    WaitingPages pages = new WaitingPages(address);
    try {
      pages.javalin.start();
    } catch (RuntimeException e) {
      throw new IllegalStateException(WebServer.startFailure(address, e), e);
    }
    LOG.info("until the service works, {} says that it waits", address.url(pages.port()));
    return pages;
  }

  /** Says that the service takes over now. */
  public void takeOver() {
    message = new Message("takeOver", "");
  }

  /**
   * Says why the service waits.
   *
   * @param working name of the machine whose service works; null while the database does not answer
   * @param clockAhead how far the clock of this machine is ahead of the database's, negative if it
   *     is behind, when that keeps it from taking over; otherwise null
   */
  public void waitFor(@Nullable String working, @Nullable Duration clockAhead) {
    if (clockAhead != null) {
      String key = clockAhead.isNegative() ? "clockBehind" : "clockAhead";
      message = new Message(key, String.valueOf(clockAhead.abs().toMinutes()));
      return;
    }
    message =
        working == null
            ? new Message("noDatabase", "")
            // Nothing that could be markup.
            : new Message("working", working.replaceAll("[^\\w.-]", "_"));
  }

  public int port() {
    return javalin.port();
  }

  private void answer(Context ctx) {
    ctx.header("Retry-After", AGAIN_SECONDS).header("Cache-Control", "no-store");
    if (ctx.path().startsWith("/api/")) {
      Problem.send(
          ctx,
          HttpStatus.SERVICE_UNAVAILABLE,
          ProblemType.STORE_AWAY,
          say(message, Locale.ENGLISH));
    } else {
      ctx.header("Content-Security-Policy", "default-src 'none'; style-src " + hashOf(STYLE));
      ctx.header("Vary", "Accept-Language, Cookie");
      ctx.status(HttpStatus.SERVICE_UNAVAILABLE).html(page(ReaderLanguage.of(ctx)));
    }
  }

  private String page(String language) {
    Locale locale = Locale.forLanguageTag(language);
    return PAGE.formatted(
        language,
        AGAIN_SECONDS,
        say(new Message("title", ""), locale),
        STYLE,
        say(new Message("heading", ""), locale),
        say(message, locale),
        say(new Message("again", AGAIN_SECONDS), locale));
  }

  private static String say(Message message, Locale locale) {
    return new LanguageTexts("tepidarium.web.server.waiting", locale)
        .say(message.key(), message.value());
  }

  /** The source expression with which a policy permits an inline style sheet (CSP level 2). */
  private static String hashOf(String style) {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(style.getBytes(StandardCharsets.UTF_8));
      return "'sha256-" + Base64.getEncoder().encodeToString(hash) + '\'';
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e); // every Java has it
    }
  }

  @Override
  public void close() {
    javalin.stop();
  }
}
