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
import tepidarium.web.Problem;
import tepidarium.web.ProblemType;

/**
 * Answers every request with status 503 while the service waits to take over from another one, and
 * while it takes over. A proxy in front of both then asks the other one, and a person reads which
 * one works. A supervisor that asks whether the process works is told that it does.
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
      <html lang="en">
      <head>
      <meta charset="utf-8">
      <meta name="viewport" content="width=device-width">
      <meta http-equiv="refresh" content="%s">
      <title>Waiting · Tepidarium</title>
      <style>%s</style>
      </head>
      <body>
      <h1>This service waits</h1>
      <p>%s</p>
      <p>This page looks again every %1$s seconds.</p>
      </body>
      </html>
      """;

  private final Javalin javalin;
  private volatile String words = "";

  private WaitingPages(WebServer.Address address) {
    waitFor(null, null);
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
    words = "It takes over now. This takes some seconds.";
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
      words =
          String.format(
              Locale.ROOT,
              "The clock of this machine is %d min %s the database's. Set the one that is wrong:"
                  + " until then, this service does not take over.",
              clockAhead.abs().toMinutes(),
              clockAhead.isNegative() ? "behind" : "ahead of");
      return;
    }
    if (working == null) {
      words = "The database does not answer yet.";
      return;
    }
    // Nothing that could be markup.
    String name = working.replaceAll("[^\\w.-]", "_");
    words =
        "The service on "
            + name
            + " works. This one takes over by itself if that one stops."
            + " You need to do nothing here.";
  }

  public int port() {
    return javalin.port();
  }

  private void answer(Context ctx) {
    ctx.header("Retry-After", AGAIN_SECONDS).header("Cache-Control", "no-store");
    if (ctx.path().startsWith("/api/")) {
      Problem.send(ctx, HttpStatus.SERVICE_UNAVAILABLE, ProblemType.STORE_AWAY, words);
    } else {
      ctx.header("Content-Security-Policy", "default-src 'none'; style-src " + hashOf(STYLE));
      ctx.status(HttpStatus.SERVICE_UNAVAILABLE).html(PAGE.formatted(AGAIN_SECONDS, STYLE, words));
    }
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
