package tepidarium.web;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Nginx;

/** nginx with the settings of the documentation for two machines, one of which works. */
class ProxyPairIT {
  @TempDir private Path folder;

  private final AtomicInteger changes = new AtomicInteger();

  /** A machine that answers everything with a status; counts the changes that it takes. */
  private HttpServer machine(int status) throws IOException {
    HttpServer server =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext(
        "/",
        exchange -> {
          exchange.getRequestBody().readAllBytes();
          if (status == 200 && exchange.getRequestMethod().equals("POST")) {
            changes.incrementAndGet();
          }
          exchange.sendResponseHeaders(status, -1);
          exchange.close();
        });
    server.start();
    return server;
  }

  /** Takes each change and ends the connection without an answer. */
  private void dying(ServerSocket socket) {
    Thread thread =
        new Thread(
            () -> {
              while (!socket.isClosed()) {
                try (Socket client = socket.accept()) {
                  client.getInputStream().read(new byte[8_192]);
                  changes.incrementAndGet();
                } catch (IOException e) {
                  // The test has ended.
                }
              }
            });
    thread.setDaemon(true);
    thread.start();
  }

  private Nginx before(int first, int second) throws IOException {
    String page = Files.readString(Path.of("src/docs/scale.md"));
    int begin = page.indexOf("upstream tepidarium {");
    return Nginx.before(
        folder,
        page.substring(begin, page.indexOf("```", begin))
            .replace("a.example.org:8080", "127.0.0.1:" + first)
            .replace("b.example.org:8080", "127.0.0.1:" + second));
  }

  private static List<Integer> send(Nginx nginx, String method, int times) {
    HttpClient client = HttpClient.newHttpClient();
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(nginx.url() + "/api/containers"))
            .method(method, BodyPublishers.ofString("{}"))
            .build();
    return IntStream.range(0, times)
        .mapToObj(i -> client.sendAsync(request, BodyHandlers.discarding()).join().statusCode())
        .toList();
  }

  @Test
  void aChangeThatMayBeStoredIsNotSentToTheOtherMachine() throws Exception {
    HttpServer working = machine(200);
    try (ServerSocket socket = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
      dying(socket);
      try (Nginx nginx = before(socket.getLocalPort(), working.getAddress().getPort())) {
        assertEquals(List.of(502, 200, 200, 200), send(nginx, "POST", 4));
        assertEquals(4, changes.get());
      }
    } finally {
      working.stop(0);
    }
  }

  @Test
  void everyRequestFindsTheMachineThatWorks() throws Exception {
    HttpServer waiting = machine(503);
    HttpServer working = machine(200);
    try (Nginx nginx = before(waiting.getAddress().getPort(), working.getAddress().getPort())) {
      for (String method : List.of("POST", "GET", "PUT", "DELETE")) {
        assertEquals(List.of(200, 200, 200), send(nginx, method, 3), method);
      }
      assertEquals(3, changes.get());
    } finally {
      waiting.stop(0);
      working.stop(0);
    }
  }
}
