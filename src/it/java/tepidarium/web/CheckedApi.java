package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublisher;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import tepidarium.web.ApiDocument.Operation;

/** Calls the running service, holds every answer against the description, and notes it. */
final class CheckedApi {
  /** An answer that is as described. */
  record Answer(int status, HttpResponse<String> response) {
    JsonNode json() {
      return ApiDocument.json(response.body());
    }

    String text() {
      return response.body();
    }

    String header(String name) {
      return response.headers().firstValue(name).orElse("");
    }
  }

  private final HttpClient client = HttpClient.newHttpClient();
  private final String base;
  private final ApiDocument document;
  private final Set<String> answered = new TreeSet<>();

  CheckedApi(String base) {
    this.base = base;
    JsonNode description =
        ApiDocument.json(send("GET", "/api/openapi.json", null, Map.of()).body());
    this.document = new ApiDocument(description);
  }

  ApiDocument document() {
    return document;
  }

  /** Operations and status codes that were answered, in the words of {@link #described()}. */
  Set<String> answered() {
    return answered;
  }

  /** All that the document describes one by one. */
  Set<String> described() {
    Set<String> described = new TreeSet<>();
    for (Operation operation : document.operations()) {
      document.statuses(operation).forEach(status -> described.add(operation + " -> " + status));
    }
    return described;
  }

  JsonNode get(String path) {
    return call("GET", path, null, 200).json();
  }

  JsonNode put(String path, String body) {
    return call("PUT", path, body, 200).json();
  }

  JsonNode post(String path, String body, int status) {
    return call("POST", path, body, status).json();
  }

  /** A call whose answer must have the status, the media type and the form that are described. */
  Answer call(String method, String path, @Nullable String body, int status) {
    return call(method, path, body, Map.of(), status);
  }

  Answer call(
      String method, String path, @Nullable String body, Map<String, String> headers, int status) {
    HttpResponse<String> response = send(method, path, body, headers);
    assertEquals(status, response.statusCode(), method + ' ' + path + ": " + response.body());
    Operation operation = document.operation(method, path.split("\\?", 2)[0]);
    if (status < 300) {
      assertDescribed(operation, path, body);
    }
    check(
        operation,
        status,
        response.headers().firstValue("content-type").orElse(""),
        response.body());
    return new Answer(status, response);
  }

  private void assertDescribed(Operation operation, String path, @Nullable String body) {
    String[] parts = path.split("\\?", 2);
    List<String> given =
        parts.length == 1
            ? List.of()
            : Arrays.stream(parts[1].split("&")).map(pair -> pair.split("=", 2)[0]).toList();
    assertTrue(document.queryParameters(operation).containsAll(given), path);
    if (body != null) {
      assertEquals(List.of(), document.faultsOfRequest(operation, body), body);
    }
  }

  /** Holds an answer, however it was got, against the description. */
  void check(Operation operation, int status, String type, String body) {
    List<String> faults = document.faultsOfAnswer(operation, status, type, body);
    assertEquals(List.of(), faults, operation + " -> " + status + ": " + body);
    answered.add(operation + " -> " + status);
  }

  /** Any call, with whatever comes back. */
  HttpResponse<String> send(
      String method, String path, @Nullable String body, Map<String, String> headers) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(base + path))
            .timeout(Duration.ofSeconds(30))
            .method(method, body == null ? BodyPublishers.noBody() : BodyPublishers.ofString(body));
    if (body != null && !headers.containsKey("Content-Type")) {
      request.header("Content-Type", mediaType(path));
    }
    headers.forEach(request::header);
    try {
      return client.send(request.build(), BodyHandlers.ofString());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  /** The media type of the body that a path takes. */
  static String mediaType(String path) {
    if (path.equals("/api/imports") || path.startsWith("/api/imports?")) {
      return "application/octet-stream";
    }
    if (path.equals("/api/record")) {
      return "application/zip";
    }
    if (path.startsWith("/api/import/")) {
      return "text/csv";
    }
    return path.endsWith("/photo") ? "image/jpeg" : "application/json";
  }

  /** Any call with bytes that are no text. */
  HttpResponse<byte[]> sendBytes(String method, String path, byte[] body) {
    BodyPublisher publisher =
        body.length == 0 ? BodyPublishers.noBody() : BodyPublishers.ofByteArray(body);
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(base + path))
            .timeout(Duration.ofSeconds(30))
            .header("Content-Type", mediaType(path))
            .method(method, publisher)
            .build();
    try {
      return client.send(request, BodyHandlers.ofByteArray());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }
}
