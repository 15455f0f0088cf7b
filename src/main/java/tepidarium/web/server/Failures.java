package tepidarium.web.server;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import org.eclipse.jetty.http.HttpException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.germination.Contradiction;
import tepidarium.germination.Entry;
import tepidarium.reading.BrokenRule;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.RefusedTable;
import tepidarium.series.StoreException;
import tepidarium.web.NotFound;
import tepidarium.web.Problem;
import tepidarium.web.ProblemType;
import tepidarium.web.Refused;

/** Converts exceptions to problem details (RFC 9457). */
public final class Failures {
  /**
   * Minimum rate of a request body, in bytes per second; a slower one is answered with status 408.
   */
  static final long MIN_BODY_BYTES_PER_SECOND = 250;

  private static final Logger LOG = LoggerFactory.getLogger(Failures.class);

  private Failures() {}

  /** Registers a handler for each type of exception. */
  public static void add(JavalinConfig config) {
    config.routes.exception(InvalidInput.class, Failures::invalid);
    config.routes.exception(
        Contradiction.class,
        (e, ctx) -> Problem.send(ctx, HttpStatus.CONFLICT, words(e), members(e)));
    config.routes.exception(
        NotFound.class,
        (e, ctx) ->
            Problem.send(
                ctx,
                HttpStatus.NOT_FOUND,
                words(e),
                broken(ProblemType.NOT_FOUND, InputRule.NOT_FOUND.with((Object) null))));
    config.routes.exception(
        Refused.class,
        (e, ctx) -> Problem.send(ctx, e.status(), words(e), Problem.members(e.broken())));
    config.routes.exception(
        HttpResponseException.class,
        (e, ctx) -> {
          HttpStatus status = HttpStatus.forStatus(e.getStatus());
          if (status == HttpStatus.METHOD_NOT_ALLOWED) {
            ctx.header("Allow", String.join(", ", e.getDetails().values()));
          }
          Problem.send(ctx, status, refusal(ctx, status, words(e)));
        });
    config.routes.exception(HttpException.RuntimeException.class, Failures::badTransfer);
    config.routes.exception(IOException.class, Failures::brokenOff);
    config.routes.exception(
        StoreException.class,
        (e, ctx) ->
            Problem.send(ctx, HttpStatus.SERVICE_UNAVAILABLE, ProblemType.STORE_AWAY, words(e)));
    config.routes.exception(Exception.class, Failures::unexpected);
  }

  private static void invalid(InvalidInput e, Context ctx) {
    Map<String, Object> more = broken(ProblemType.INVALID_INPUT, e.broken());
    String field = e.field();
    if (field != null) {
      more.put("field", field);
    }
    RefusedTable table = e.table();
    if (table != null) {
      more.put("table", RefusedTableJson.of(table));
    }
    Problem.send(ctx, HttpStatus.BAD_REQUEST, words(e), more);
  }

  private static Map<String, Object> members(Contradiction e) {
    Map<String, Object> more = broken(ProblemType.CONTRADICTION, e.broken());
    Entry entry = e.entry();
    if (entry != null) {
      more.put("entry", Map.of("kind", entry.act().kind(), "at", entry.at()));
    }
    return more;
  }

  /** The type of a refusal, and the rule that was broken, if it has one. */
  private static Map<String, Object> broken(ProblemType type, @Nullable BrokenRule broken) {
    Map<String, Object> more = new LinkedHashMap<>();
    more.put("type", type.uri());
    if (broken != null) {
      more.putAll(Problem.members(broken));
    }
    return more;
  }

  /** Answers a body that was wrongly encoded or arrived too slowly. */
  private static void badTransfer(HttpException.RuntimeException e, Context ctx) {
    HttpStatus status = HttpStatus.forStatus(e.getCode());
    ctx.header("Connection", "close");
    Problem.send(
        ctx,
        status,
        status == HttpStatus.REQUEST_TIMEOUT
            ? "the body came slower than " + MIN_BODY_BYTES_PER_SECOND + " bytes a second"
            : "the body cannot be read: " + e.getReason());
  }

  /** Answers a client that closed the connection or was too slow. */
  private static void brokenOff(IOException e, Context ctx) {
    LOG.debug("{} closed the connection during a request", ctx.ip(), e);
    try {
      ctx.header("Connection", "close");
      Problem.send(ctx, HttpStatus.REQUEST_TIMEOUT, "the request was broken off");
    } catch (RuntimeException gone) {
      LOG.debug("the client closed the connection before its answer", gone);
    }
  }

  /**
   * Answers an unexpected exception with status 500 and logs it. Never throws: Javalin would call
   * this handler again with the new exception, endlessly. After the client has closed the
   * connection, each use of the context can throw.
   */
  static void unexpected(Exception e, Context ctx) {
    try {
      String reference = UUID.randomUUID().toString().substring(0, 8);
      LOG.error("{} {} failed, reference {}", ctx.method(), ctx.path(), reference, e);
      Problem.send(
          ctx,
          HttpStatus.INTERNAL_SERVER_ERROR,
          "This is an error in the service. The log has details under the reference "
              + reference
              + '.',
          Map.of("reference", reference));
    } catch (RuntimeException gone) {
      LOG.debug("the client closed the connection before its answer", e);
    }
  }

  private static String refusal(Context ctx, HttpStatus status, String words) {
    return switch (status) {
      case NOT_FOUND -> "there is no page or route " + ctx.path();
      case METHOD_NOT_ALLOWED -> ctx.method() + " cannot be used at " + ctx.path();
      case CONTENT_TOO_LARGE ->
          "the body is larger than the " + RequestGuard.maxBytes(ctx) + " bytes that are accepted";
      default -> words;
    };
  }

  private static String words(Exception e) {
    String message = e.getMessage();
    return message == null ? e.getClass().getSimpleName() : message;
  }
}
