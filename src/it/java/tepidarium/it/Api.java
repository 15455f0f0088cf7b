package tepidarium.it;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;

/** Speaks HTTP to a running service, as any client would. */
public final class Api {
  private static final ObjectMapper JSON = new ObjectMapper();

  /** An answer: its status, its media type and its body, null where that is no JSON. */
  public record Answer(int status, String type, String text) {
    public JsonNode json() {
      try {
        return JSON.readTree(text);
      } catch (IOException e) {
        throw new UncheckedIOException("not JSON: " + text, e);
      }
    }
  }

  private final String base;
  private final HttpClient client = HttpClient.newHttpClient();

  public Api(String base) {
    this.base = base;
  }

  public String base() {
    return base;
  }

  /** The JSON at a path; fails where the answer is not 200. */
  public JsonNode get(String path) {
    return good(call("GET", path, null));
  }

  public JsonNode post(String path, String body) {
    return good(call("POST", path, body));
  }

  public JsonNode put(String path, String body) {
    return good(call("PUT", path, body));
  }

  private static JsonNode good(Answer answer) {
    if (answer.status() / 100 != 2) {
      throw new AssertionError("status " + answer.status() + ": " + answer.text());
    }
    return answer.json();
  }

  /** Any call, with whatever comes back. */
  public Answer call(String method, String path, String body) {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(base + path))
            .timeout(Duration.ofSeconds(30))
            .header("Content-Type", "application/json")
            .method(method, body == null ? BodyPublishers.noBody() : BodyPublishers.ofString(body))
            .build();
    try {
      HttpResponse<String> response = client.send(request, BodyHandlers.ofString());
      String type = response.headers().firstValue("content-type").orElse("");
      return new Answer(response.statusCode(), type, response.body());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }
}
