package tepidarium.web.access;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpStatus;
import io.javalin.router.Endpoint;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.access.Identity;
import tepidarium.access.Role;
import tepidarium.reading.InputRule;
import tepidarium.series.StoreException;
import tepidarium.web.Refused;
import tepidarium.web.Visitor;

/**
 * Refuses requests of visitors who lack the role that the route needs. Sends browsers without a
 * session to the login page. A request with a token in the header {@code Authorization} uses the
 * token alone, and its cookie is ignored.
 */
public final class LoginGuard {
  private static final Logger LOG = LoggerFactory.getLogger(LoginGuard.class);
  private static final String BEARER = "Bearer ";

  private final Login login;

  public LoginGuard(Login login) {
    this.login = login;
  }

  public void add(RoutesConfig routes) {
    routes.beforeMatched(this::check);
  }

  private void check(Context ctx) {
    if (!login.asks()) {
      Visitor.EVERYBODY.visits(ctx);
      return;
    }
    Visitor visitor = identify(ctx).map(this::visitor).orElse(Visitor.NOBODY);
    visitor.visits(ctx);
    Role needed = needed(ctx);
    if (needed == null || visitor.may(needed)) {
      return;
    }
    if (visitor.role() != null) {
      throw new Refused(
          HttpStatus.FORBIDDEN,
          "this needs the role "
              + needed.key()
              + "; you have the role "
              + visitor.role().key()
              + ". A person with the role own can change that on the page People.",
          InputRule.ROLE.with(needed.key(), visitor.role().key()));
    }
    if (isPage(ctx)) {
      ctx.redirect("/login.html?to=" + encoded(addressOf(ctx)), HttpStatus.SEE_OTHER);
      ctx.skipRemainingHandlers();
      return;
    }
    ctx.header("WWW-Authenticate", "Bearer realm=\"tepidarium\"");
    throw new Refused(
        HttpStatus.UNAUTHORIZED,
        isTokenGiven(ctx)
            ? "the token is wrong, has ended, or was removed. The page People lists the tokens."
            : "this needs a login. Sign in on the page /login.html, or send a token in the header"
                + " Authorization: Bearer …",
        InputRule.SIGNED_OUT.with());
  }

  /** The role that the matched route needs; null if it needs none. */
  private static @Nullable Role needed(Context ctx) {
    Endpoint endpoint = ctx.endpoints().matchedHttpEndpoint();
    if (endpoint == null) {
      return isFile(ctx) ? null : Role.LOOK;
    }
    return RouteRoles.of(endpoint.method.name(), endpoint.path)
        .orElseThrow(() -> new IllegalStateException("no role for " + endpoint.path))
        .role();
  }

  /** Whether the request is for a style sheet, script or picture of the pages. */
  private static boolean isFile(Context ctx) {
    String path = ctx.path();
    return !path.startsWith("/api/")
        && (path.endsWith(".js") || path.endsWith(".css") || path.endsWith(".svg"));
  }

  private static boolean isPage(Context ctx) {
    boolean reads = ctx.method().equals(HandlerType.GET) || ctx.method().equals(HandlerType.HEAD);
    return reads && !ctx.path().startsWith("/api/") && !ctx.path().equals("/metrics");
  }

  private static String addressOf(Context ctx) {
    String query = ctx.queryString();
    return query == null ? ctx.path() : ctx.path() + '?' + query;
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  /** Whether a request carries a token; browsers of other sites cannot send one. */
  public static boolean isTokenGiven(Context ctx) {
    String given = ctx.header("Authorization");
    return given != null && given.regionMatches(true, 0, BEARER, 0, BEARER.length());
  }

  private Optional<Identity> identify(Context ctx) {
    Instant now = login.clock().instant();
    String authorization = ctx.header("Authorization");
    if (authorization != null && isTokenGiven(ctx)) {
      String token = authorization.substring(BEARER.length()).strip();
      return orEmpty(() -> login.access().byToken(token, now));
    }
    String secret = SessionCookie.read(ctx);
    return secret == null ? Optional.empty() : orEmpty(() -> login.access().bySession(secret, now));
  }

  /**
   * Looks up a session or token. If the store cannot write the time of use, looks it up once more:
   * the second attempt does not write it.
   */
  private static Optional<Identity> orEmpty(Supplier<Optional<Identity>> lookup) {
    try {
      return lookup.get();
    } catch (StoreException e) {
      LOG.debug("cannot note the use of a session or token", e);
      return lookup.get();
    }
  }

  private Visitor visitor(Identity identity) {
    return new Visitor(
        identity, identity.role(), () -> login.access().lasts(identity, login.clock().instant()));
  }
}
