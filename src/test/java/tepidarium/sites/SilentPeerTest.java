package tepidarium.sites;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.junit.jupiter.api.Test;

/** A site whose machine accepts the connection and does not finish its answer. */
class SilentPeerTest {
  private static final String HEAD =
      "HTTP/1.1 200 OK\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n";

  private static SiteReport ask(ServerSocket server) {
    OtherSite north =
        new OtherSite(
            "North", List.of(URI.create("http://127.0.0.1:" + server.getLocalPort())), null);
    try (Sites sites =
        new Sites(
            List.of(north),
            () -> {
              throw new IllegalStateException();
            },
            Clock.systemUTC(),
            new SiteClient(Duration.ofMillis(300)))) {
      sites.askAll();
      return sites.reports().get(0);
    }
  }

  private static ServerSocket server() throws IOException {
    return new ServerSocket(0, 10, InetAddress.getLoopbackAddress());
  }

  @Test
  void oneThatSaysNothingIsUnreachable() throws IOException {
    try (ServerSocket server = server()) {
      CompletableFuture<Integer> heard =
          CompletableFuture.supplyAsync(
              () -> {
                try (Socket peer = server.accept()) {
                  return peer.getInputStream().readAllBytes().length; // until the client ends
                } catch (IOException e) {
                  throw new CompletionException(e);
                }
              });
      SiteReport report = ask(server);
      assertEquals(SiteTrouble.UNREACHABLE, report.trouble());
      assertTrue(heard.join() > 0, "it was asked");
    }
  }

  @Test
  void oneThatTricklesIsCutOff() throws IOException {
    try (ServerSocket server = server()) {
      CompletableFuture<Void> trickling = CompletableFuture.runAsync(() -> trickle(server));
      assertEquals(SiteTrouble.UNREACHABLE, ask(server).trouble());
      CompletionException end = assertThrows(CompletionException.class, trickling::join);
      assertTrue(end.getCause() instanceof IOException, end::toString);
    }
  }

  /** Sends a space each time that nothing came for 20 ms; ends when the client ends. */
  private static void trickle(ServerSocket server) {
    try (Socket peer = server.accept()) {
      InputStream in = peer.getInputStream();
      OutputStream out = peer.getOutputStream();
      out.write(HEAD.getBytes(StandardCharsets.US_ASCII));
      peer.setSoTimeout(20);
      while (true) {
        out.write(' ');
        out.flush();
        try {
          if (in.read(new byte[4096]) < 0) {
            throw new IOException("the client ended the connection");
          }
        } catch (SocketTimeoutException e) {
          continue;
        }
      }
    } catch (IOException e) {
      throw new CompletionException(e);
    }
  }
}
