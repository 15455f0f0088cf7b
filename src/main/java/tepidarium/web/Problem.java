package tepidarium.web;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.LinkedHashMap;
import java.util.Map;

/** Errors as problem details (RFC 9457). */
final class Problem {
  private Problem() {}

  static void send(Context ctx, HttpStatus status, String detail) {
    Map<String, Object> problem = new LinkedHashMap<>();
    problem.put("type", "about:blank");
    problem.put("title", status.getMessage());
    problem.put("status", status.getCode());
    problem.put("detail", detail);
    ctx.status(status).result(Json.write(problem)).contentType("application/problem+json");
  }
}
