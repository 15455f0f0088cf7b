package tepidarium.sites;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.io.IOException;
import java.net.ConnectException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpTimeoutException;
import java.time.DateTimeException;
import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.sites.SiteAnswer.Kind;

/**
 * Asks one address of a site for its state. An answer has at most 64 KiB; redirects are not
 * followed. Thread-safe.
 */
final class SiteClient {
  private static final Logger LOG = LoggerFactory.getLogger(SiteClient.class);
  private static final int MOST_BYTES = 64 << 10;
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .addModule(new JavaTimeModule())
          .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .build();

  private final Duration limit;
  private final HttpClient web;

  /**
   * Prepares the questions.
   *
   * @param limit the longest time for a whole answer
   */
  SiteClient(Duration limit) {
    this.limit = limit;
    web =
        HttpClient.newBuilder()
            .connectTimeout(limit)
            .followRedirects(HttpClient.Redirect.NEVER)
            .build();
  }

  /** Returns what comes from the address. Whatever fails, the future has an answer that says so. */
  CompletableFuture<SiteAnswer> ask(URI address, @Nullable String token) {
    HttpRequest request;
    try {
      request = request(address, token);
    } catch (IllegalArgumentException e) {
      // Without the exception's message, which may contain the token.
      return CompletableFuture.completedFuture(
          new SiteAnswer(
              address, Kind.UNREACHABLE, "its address or access token is not valid", null));
    }
    LimitedBody body = new LimitedBody(MOST_BYTES);
    return web.sendAsync(request, info -> body)
        .orTimeout(limit.toMillis(), TimeUnit.MILLISECONDS)
        .whenComplete(
            (response, failure) -> {
              if (failure != null) {
                body.fail(failure);
              }
            })
        .handle((response, failure) -> answer(address, response, failure));
  }

  private HttpRequest request(URI address, @Nullable String token) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(address + "/api/site"))
            .timeout(limit)
            .header("Accept", "application/json");
    if (token != null) {
      request.header("Authorization", "Bearer " + token);
    }
    return request.build();
  }

  private static SiteAnswer answer(
      URI address, @Nullable HttpResponse<byte[]> response, @Nullable Throwable failure) {
    if (response == null) {
      return new SiteAnswer(address, Kind.UNREACHABLE, words(failure), null);
    }
    String status = "HTTP status " + response.statusCode();
    return switch (response.statusCode()) {
      case 200 -> read(address, response.body());
      case 401, 403 -> new SiteAnswer(address, Kind.REFUSED, status, null);
      // A proxy that reaches no machine answers with 503 too, but not in this form.
      case 503 ->
          isOfTheProgram(response)
              ? new SiteAnswer(address, Kind.WAITS, status, null)
              : new SiteAnswer(address, Kind.UNREACHABLE, status, null);
      case 502, 504 -> new SiteAnswer(address, Kind.UNREACHABLE, status, null);
      default -> new SiteAnswer(address, Kind.UNREADABLE, status, null);
    };
  }

  private static boolean isOfTheProgram(HttpResponse<?> response) {
    return response.headers().firstValue("Content-Type").orElse("").contains("problem+json");
  }

  private static SiteAnswer read(URI address, byte[] body) {
    try {
      SiteState state = JSON.readValue(body, SiteState.class);
      if (state != null) { // null for the JSON null
        return new SiteAnswer(address, Kind.WORKS, null, state);
      }
    } catch (IOException | DateTimeException e) {
      LOG.debug("cannot read the answer of {}", address, e);
    }
    return new SiteAnswer(address, Kind.UNREADABLE, "it is not the answer of this program", null);
  }

  /** What the system says of a failure; null if the address merely does not answer. */
  private static @Nullable String words(@Nullable Throwable failure) {
    Throwable cause =
        failure instanceof CompletionException && failure.getCause() != null
            ? failure.getCause()
            : failure;
    boolean silent =
        cause instanceof TimeoutException
            || cause instanceof HttpTimeoutException
            || cause instanceof ConnectException;
    return cause == null || silent ? null : cause.getMessage();
  }
}
