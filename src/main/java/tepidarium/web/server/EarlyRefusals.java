package tepidarium.web.server;

import io.javalin.http.HttpStatus;
import java.util.Map;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.handler.ErrorHandler;
import org.eclipse.jetty.util.Callback;
import org.jspecify.annotations.Nullable;
import tepidarium.web.Problem;

/**
 * Answers requests that are refused before they reach a route, such as one with an invalid address.
 */
final class EarlyRefusals extends ErrorHandler {
  @Override
  protected void generateResponse(
      Request request,
      Response response,
      int code,
      @Nullable String message,
      @Nullable Throwable cause,
      Callback callback) {
    HttpStatus status = HttpStatus.forStatus(code);
    String reason = message == null ? status.getMessage() : message;
    SecurityHeaders.HEADERS.forEach(response.getHeaders()::put);
    response.getHeaders().put(HttpHeader.CONTENT_TYPE, Problem.TYPE);
    Content.Sink.write(
        response,
        true,
        Problem.text(status, "the request cannot be read: " + reason, Map.of()),
        callback);
  }
}
