package tepidarium.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.ContentTooLargeResponse;
import io.javalin.http.Context;
import io.javalin.http.ForbiddenResponse;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * Refuses requests before any route sees them: those that a page of another site makes through a
 * visitor's browser, bodies that are too large, and bodies of a media type that is not taken. A
 * browser sends a foreign page's request with a body of another media type only after it has asked
 * for permission, which this service never gives.
 */
final class RequestGuard {
  static final long LARGEST_BODY_BYTES = 1 << 20;
  private static final Set<String> READING = Set.of("GET", "HEAD", "OPTIONS");
  private static final Set<String> PICTURES = Set.of("image/jpeg", "image/png");
  private static final Set<String> FOREIGN_SITES = Set.of("cross-site", "same-site");

  private final OwnNames names;

  RequestGuard(OwnNames names) {
    this.names = names;
  }

  void add(RoutesConfig routes) {
    routes.before(this::refuseForeignHosts);
    routes.before(this::refuseForeignPages);
    routes.before(RequestGuard::refuseLargeBodies);
    routes.before(RequestGuard::refuseOtherMediaTypes);
  }

  private void refuseForeignHosts(Context ctx) {
    String host = ctx.req().getServerName();
    if (!names.isOwnHost(host)) {
      throw new HttpResponseException(
          HttpStatus.MISDIRECTED_REQUEST.getCode(),
          '"'
              + Params.shown(host)
              + "\" is not a known name of this service. If you reach it under this name, add the"
              + " name to the setting httpNames.",
          Map.of());
    }
  }

  private void refuseForeignPages(Context ctx) {
    String origin = ctx.header("Origin");
    if (origin != null
        && !names.isOwnOrigin(origin, ctx.req().getServerName(), ctx.req().getServerPort())) {
      throw new ForbiddenResponse(
          "requests are taken from this service's own pages only, not from \""
              + Params.shown(origin)
              + "\". If that is an address of this service, such as that of a reverse proxy, add"
              + " its name to the setting httpNames.");
    }
    String site = ctx.header("Sec-Fetch-Site");
    if (!READING.contains(ctx.method().name()) && site != null && FOREIGN_SITES.contains(site)) {
      throw new ForbiddenResponse("changes are taken from this service's own pages only");
    }
  }

  /** By the length that is told; a body that tells none is counted while it is read. */
  private static void refuseLargeBodies(Context ctx) {
    if (ctx.req().getContentLengthLong() > LARGEST_BODY_BYTES) {
      throw new ContentTooLargeResponse();
    }
  }

  private static void refuseOtherMediaTypes(Context ctx) {
    boolean body = ctx.req().getContentLengthLong() > 0 || ctx.header("Transfer-Encoding") != null;
    if (!body || READING.contains(ctx.method().name())) {
      return;
    }
    String given = ctx.contentType();
    String type = given == null ? "" : given.split(";", 2)[0].strip().toLowerCase(Locale.ROOT);
    Set<String> taken = mediaTypes(ctx.path());
    if (!taken.contains(type)) {
      String needed = String.join(" or ", taken.stream().sorted().toList());
      throw new HttpResponseException(
          HttpStatus.UNSUPPORTED_MEDIA_TYPE.getCode(),
          "the body must be "
              + needed
              + (type.isEmpty() ? "" : ", not " + Params.shown(type))
              + "; send it with the header Content-Type: "
              + needed,
          Map.of());
    }
  }

  private static Set<String> mediaTypes(String path) {
    if (path.startsWith("/api/import/")) {
      return Set.of("text/csv");
    }
    return path.endsWith("/photo") ? PICTURES : Set.of("application/json");
  }
}
