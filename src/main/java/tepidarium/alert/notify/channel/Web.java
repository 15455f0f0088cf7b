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
import tepidarium.alert.notify.Outcome;

/**
 * One HTTP call that ends within a time limit, whatever the other side does. Redirects are not
 * followed: what is sent goes where the grower said and nowhere else.
 */
final class Web {
  private static final String NO_REDIRECT = ", which leads elsewhere: set that address instead";

  private final HttpClient client;
  private final Duration limit;

  Web(Duration limit) {
    this.limit = limit;
    this.client =
        HttpClient.newBuilder()
            .connectTimeout(limit)
            .followRedirects(HttpClient.Redirect.NEVER)
            .build();
  }

  /** The address as it may be shown: what follows the host may hold a secret. */
  static String shown(URI url) {
    String port = url.getPort() < 0 ? "" : ":" + url.getPort();
    return url.getScheme() + "://" + url.getHost() + port + "/…";
  }

  /** Sends; any answer from 200 to 299 means that it was taken. */
  Outcome send(HttpRequest request) {
    String shown = shown(request.uri());
    CompletableFuture<HttpResponse<Void>> answer =
        client.sendAsync(request, BodyHandlers.discarding());
    try {
      int status = answer.get(limit.toMillis(), TimeUnit.MILLISECONDS).statusCode();
      return status / 100 == 2
          ? Outcome.delivered(shown + " answered " + status)
          : Outcome.later(shown + " answered " + status + (status / 100 == 3 ? NO_REDIRECT : ""));
    } catch (TimeoutException e) {
      answer.cancel(true);
      return Outcome.later(shown + " did not answer within " + limit.toSeconds() + " s");
    } catch (ExecutionException e) {
      return Outcome.later(
          "cannot reach " + shown + ": " + words(e.getCause() == null ? e : e.getCause()));
    } catch (InterruptedException e) {
      answer.cancel(true);
      Thread.currentThread().interrupt();
      return Outcome.later("stopped while " + shown + " had not answered");
    }
  }

  private static String words(Throwable cause) {
    String message = cause.getMessage();
    return message == null ? cause.getClass().getSimpleName() : message;
  }
}
