package tepidarium.web.access;

import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.SameSite;
import org.jspecify.annotations.Nullable;
import tepidarium.access.Session;

/**
 * The cookie with the secret of a session. Scripts cannot read it (HttpOnly). It is Secure if the
 * browser uses TLS.
 *
 * <p>SameSite is Lax: with Strict, a browser would leave the cookie out when somebody follows a
 * link from an e-mail or a scanned code, and would show the login page. Requests that change
 * something are accepted from this service's own pages only, see RequestGuard.
 */
final class SessionCookie {
  private static final int NO_MAX_AGE = -1;

  private SessionCookie() {}

  /** The name holds the port, because browsers share cookies between the ports of a host. */
  private static String name(Context ctx) {
    return "tepidarium-session-" + ctx.req().getServerPort();
  }

  static @Nullable String read(Context ctx) {
    return ctx.cookie(name(ctx));
  }

  /** Sends the cookie. Without a year-long session, the browser drops it when it closes. */
  static void send(Context ctx, Session session, String secret) {
    int maxAge = session.yearLong() ? (int) Session.YEAR.toSeconds() : NO_MAX_AGE;
    ctx.cookie(cookie(ctx, secret, maxAge));
  }

  static void remove(Context ctx) {
    ctx.cookie(cookie(ctx, "", 0));
  }

  private static Cookie cookie(Context ctx, String value, int maxAge) {
    return new Cookie(
        name(ctx), value, "/", maxAge, ctx.req().isSecure(), true, null, SameSite.LAX);
  }
}
