package tepidarium.web.server;

import java.util.Map;
import org.eclipse.jetty.http.HttpFields;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.Request;

/**
 * Adds headers to every response that limit what a browser does with it. The pages replace the
 * content security policy with one that permits their own scripts, style sheets and pictures.
 */
final class SecurityHeaders implements HttpConfiguration.Customizer {
  static final Map<String, String> HEADERS =
      Map.of(
          "X-Content-Type-Options", "nosniff",
          "Referrer-Policy", "same-origin",
          "Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'");

  @Override
  public Request customize(Request request, HttpFields.Mutable headers) {
    HEADERS.forEach(headers::put);
    return request;
  }
}
