package tepidarium.web;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/** A client with headers of its own, such as a cookie or a token. Follows no redirect. */
record Visit(HttpClient client, String base, Map<String, String> headers) {
  /** Everything that was answered in this process, to search it for secrets. */
  static final Set<String> ANSWERS = ConcurrentHashMap.newKeySet();

  /** An answer with its headers. */
  record Answer(int status, String body, HttpResponse<String> response) {
    String header(String name) {
      return response.headers().firstValue(name).orElse("");
    }

    JsonNode json() {
      return ApiDocument.json(body);
    }

    /** The cookie that the answer sets, without its attributes. */
    String cookie() {
      return header("Set-Cookie").split(";", 2)[0];
    }
  }

  static Visit to(String base) {
    return new Visit(HttpClient.newHttpClient(), base, Map.of());
  }

  Visit with(String name, String value) {
    Map<String, String> more = new LinkedHashMap<>(headers);
    more.put(name, value);
    return new Visit(client, base, more);
  }

  /** The same client from another address, as a trusted proxy tells it. */
  Visit from(String address) {
    return with("X-Forwarded-For", address);
  }

  Visit withToken(String token) {
    return with("Authorization", "Bearer " + token);
  }

  Answer get(String path) {
    return call("GET", path, null);
  }

  Answer call(String method, String path, @Nullable String body) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(base + path))
            .timeout(Duration.ofSeconds(30))
            .method(method, body == null ? BodyPublishers.noBody() : BodyPublishers.ofString(body));
    if (body != null && !headers.containsKey("Content-Type")) {
      request.header("Content-Type", "application/json");
    }
    headers.forEach(request::header);
    try {
      HttpResponse<String> response = client.send(request.build(), BodyHandlers.ofString());
      ANSWERS.add(response.headers().firstValue("location").orElse("") + response.body());
      return new Answer(response.statusCode(), response.body(), response);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  Answer signIn(String name, String password, boolean yearLong) {
    return call(
        "POST",
        "/api/session",
        "{\"name\":\"%s\",\"password\":\"%s\",\"yearLong\":%s}"
            .formatted(name, password, yearLong));
  }

  /** The client after it has signed in. */
  Visit signedIn(String name, String password) {
    Answer answer = signIn(name, password, false);
    if (answer.status() != 200) {
      throw new AssertionError("cannot sign in: " + answer.status() + ' ' + answer.body());
    }
    return with("Cookie", answer.cookie());
  }

  /** Makes a token of a role and returns its secret. */
  String token(String role) {
    Answer made =
        call(
            "POST",
            "/api/tokens",
            "{\"name\":\"%s for a test\",\"role\":\"%s\",\"days\":3}".formatted(role, role));
    if (made.status() != 201) {
      throw new AssertionError("no token: " + made.body());
    }
    String secret = made.json().path("secret").asText();
    ANSWERS.remove(made.body());
    return secret;
  }
}
