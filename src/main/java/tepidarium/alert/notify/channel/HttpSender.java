package tepidarium.alert.notify.channel;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import tepidarium.alert.notify.DeliveryOutcome;

/**
 * Sends HTTP requests with a total timeout. Does not follow redirects, so that data goes only to
 * the configured address.
 */
final class HttpSender {
  private static final String NO_REDIRECT = ", a redirect: set the address that it points to";

  private final HttpClient client;
  private final Duration limit;

  HttpSender(Duration limit) {
    this.limit = limit;
    this.client =
        HttpClient.newBuilder()
            .connectTimeout(limit)
            .followRedirects(HttpClient.Redirect.NEVER)
            .build();
  }

  /** The address without path and query, which may contain a secret. */
  static String shown(URI url) {
    String port = url.getPort() < 0 ? "" : ":" + url.getPort();
    return url.getScheme() + "://" + url.getHost() + port + "/…";
  }

  /** Sends a request; a response status from 200 to 299 means success. */
  DeliveryOutcome send(HttpRequest request) {
    String shown = shown(request.uri());
    CompletableFuture<HttpResponse<Void>> answer =
        client.sendAsync(request, BodyHandlers.discarding());
    try {
      int status = answer.get(limit.toMillis(), TimeUnit.MILLISECONDS).statusCode();
      return status / 100 == 2
          ? DeliveryOutcome.delivered(shown + " answered " + status)
          : DeliveryOutcome.later(
              shown + " answered " + status + (status / 100 == 3 ? NO_REDIRECT : ""));
    } catch (TimeoutException e) {
      answer.cancel(true);
      return DeliveryOutcome.later(shown + " did not answer within " + limit.toSeconds() + " s");
    } catch (ExecutionException e) {
      return DeliveryOutcome.later(
          "cannot reach " + shown + ": " + words(e.getCause() == null ? e : e.getCause()));
    } catch (InterruptedException e) {
      answer.cancel(true);
      Thread.currentThread().interrupt();
      return DeliveryOutcome.later("interrupted while waiting for " + shown);
    }
  }

  private static String words(Throwable cause) {
    String message = cause.getMessage();
    return message == null ? cause.getClass().getSimpleName() : message;
  }
}
