package tepidarium.web.server;

import io.javalin.config.RoutesConfig;
import io.javalin.http.ContentTooLargeResponse;
import io.javalin.http.Context;
import io.javalin.http.ForbiddenResponse;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import tepidarium.exchange.RecordZip;
import tepidarium.importing.ImportJobs;
import tepidarium.web.Params;
import tepidarium.web.access.LoginGuard;
import tepidarium.web.files.ImportRoutes;
import tepidarium.web.files.RecordRoutes;

/**
 * Refuses requests before they reach a route: requests from pages of other sites, too large bodies,
 * and bodies of other media types. For a page of another site, a browser sends such media types
 * only after a preflight request (CORS), which this service never permits.
 */
final class RequestGuard {
  static final long MAX_BODY_BYTES = 1 << 20;
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
    routes.before(RequestGuard::readBody);
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

  /** A request with a token needs no check: pages of other sites cannot send one. */
  private void refuseForeignPages(Context ctx) {
    if (LoginGuard.isTokenGiven(ctx)) {
      return;
    }
    String origin = ctx.header("Origin");
    if (origin != null
        && !names.isOwnOrigin(origin, ctx.req().getServerName(), ctx.req().getServerPort())) {
      throw new ForbiddenResponse(
          "requests are accepted from this service's own pages only, not from \""
              + Params.shown(origin)
              + "\". If that is an address of this service, such as that of a reverse proxy, add"
              + " its name to the setting httpNames.");
    }
    String site = ctx.header("Sec-Fetch-Site");
    if (!READING.contains(ctx.method().name()) && site != null && FOREIGN_SITES.contains(site)) {
      throw new ForbiddenResponse("changes are accepted from this service's own pages only");
    }
  }

  /** Checks the declared length; a body without one is limited while it is read. */
  private static void refuseLargeBodies(Context ctx) {
    if (ctx.req().getContentLengthLong() > maxBytes(ctx)) {
      throw new ContentTooLargeResponse();
    }
  }

  /** The longest body that a route takes, in bytes. */
  static long maxBytes(Context ctx) {
    if (ctx.path().equals(RecordRoutes.PATH)) {
      return RecordZip.MAX_BYTES;
    }
    return isUpload(ctx) ? ImportJobs.MAX_BYTES : MAX_BODY_BYTES;
  }

  private static void refuseOtherMediaTypes(Context ctx) {
    boolean body = ctx.req().getContentLengthLong() > 0 || ctx.header("Transfer-Encoding") != null;
    if (!body || READING.contains(ctx.method().name())) {
      return;
    }
    String given = ctx.header("Content-Type");
    String[] parts = given == null ? new String[] {""} : given.split(";", -1);
    String type = parts[0].strip().toLowerCase(Locale.ROOT);
    Set<String> taken = mediaTypes(ctx.path());
    boolean readable = Stream.of(parts).skip(1).allMatch(RequestGuard::isReadable);
    if (!taken.contains(type) || !readable) {
      String needed = String.join(" or ", taken.stream().sorted().toList());
      throw new HttpResponseException(
          HttpStatus.UNSUPPORTED_MEDIA_TYPE.getCode(),
          "the body must be "
              + needed
              + (readable ? "" : " in UTF-8")
              + (given == null ? "" : ", not " + Params.shown(given))
              + "; send it with the header Content-Type: "
              + needed,
          Map.of());
    }
  }

  /**
   * Reads and caches the body. A refusal that is sent before the whole body is read would be lost
   * when the connection closes.
   */
  private static void readBody(Context ctx) {
    if (!READING.contains(ctx.method().name()) && !isUpload(ctx)) {
      ctx.bodyAsBytes();
    }
  }

  /**
   * Whether a parameter of a media type is acceptable: any parameter but charset, or charset=utf-8.
   */
  private static boolean isReadable(String parameter) {
    String plain = parameter.replaceAll("[\\s\"]", "").toLowerCase(Locale.ROOT);
    return !plain.startsWith("charset=") || plain.equals("charset=utf-8");
  }

  /** Whether the body is a file, which the route reads itself. */
  private static boolean isUpload(Context ctx) {
    return ctx.path().equals(ImportRoutes.PATH) || ctx.path().equals(RecordRoutes.PATH);
  }

  private static Set<String> mediaTypes(String path) {
    if (path.equals(ImportRoutes.PATH)) {
      return Set.of("application/octet-stream");
    }
    if (path.equals(RecordRoutes.PATH)) {
      return Set.of("application/zip");
    }
    if (path.startsWith("/api/import/")) {
      return Set.of("text/csv");
    }
    return path.endsWith("/photo") ? PICTURES : Set.of("application/json");
  }
}
