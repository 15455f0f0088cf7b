package tepidarium.web;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;

/** An open live stream, as a page has it. */
final class LiveEvents implements AutoCloseable {
  /** An event with its data. */
  record Event(String name, String data) {}

  private final List<Event> events = new CopyOnWriteArrayList<>();
  private final HttpResponse<Stream<String>> response;
  private final Thread reader;

  private LiveEvents(HttpResponse<Stream<String>> response) {
    this.response = response;
    this.reader = new Thread(this::read, "live-events");
    reader.setDaemon(true);
    reader.start();
  }

  static LiveEvents open(String base) {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(base + "/api/live"))
            .header("Accept", "text/event-stream")
            .build();
    CompletableFuture<HttpResponse<Stream<String>>> response =
        HttpClient.newHttpClient().sendAsync(request, BodyHandlers.ofLines());
    return new LiveEvents(response.join());
  }

  private void read() {
    try (Stream<String> lines = response.body()) {
      String[] name = {""};
      lines.forEach(
          line -> {
            if (line.startsWith("event: ")) {
              name[0] = line.substring(7);
            } else if (line.startsWith("data: ")) {
              events.add(new Event(name[0], line.substring(6)));
            }
          });
    } catch (RuntimeException e) {
      // Closed by the test.
    }
  }

  int status() {
    return response.statusCode();
  }

  String type() {
    return response.headers().firstValue("content-type").orElse("");
  }

  List<Event> events() {
    return List.copyOf(events);
  }

  boolean has(String name, String part) {
    return events.stream().anyMatch(e -> e.name().equals(name) && e.data().contains(part));
  }

  @Override
  public void close() {
    response.body().close();
    reader.interrupt();
  }
}
