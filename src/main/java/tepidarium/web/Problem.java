package tepidarium.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.LinkedHashMap;
import java.util.Map;
import tepidarium.reading.BrokenRule;

/** Writes errors as problem details (RFC 9457). */
public final class Problem {
  public static final String TYPE = "application/problem+json";

  private Problem() {}

  public static void send(Context ctx, HttpStatus status, String detail) {
    send(ctx, status, detail, Map.of());
  }

  public static void send(Context ctx, HttpStatus status, ProblemType type, String detail) {
    send(ctx, status, detail, Map.of("type", type.uri()));
  }

  /** Sends a problem with additional members, which may include the type. */
  public static void send(Context ctx, HttpStatus status, String detail, Map<String, ?> more) {
    ctx.status(status).result(text(status, detail, more)).contentType(TYPE);
  }

  /** The members that tell which rule an input broke. */
  public static Map<String, Object> members(BrokenRule broken) {
    return Map.of("rule", broken.rule().key(), "figures", broken.figures());
  }

  public static String text(HttpStatus status, String detail, Map<String, ?> more) {
    Map<String, Object> problem = new LinkedHashMap<>();
    problem.put("type", "about:blank");
    problem.put("title", title(status));
    problem.put("status", status.getCode());
    problem.put("detail", detail);
    problem.putAll(more);
    return Json.write(problem);
  }

  /** The standard phrase of the status; the web server has a different one for status 500. */
  private static String title(HttpStatus status) {
    return status == HttpStatus.INTERNAL_SERVER_ERROR
        ? "Internal Server Error"
        : status.getMessage();
  }
}
