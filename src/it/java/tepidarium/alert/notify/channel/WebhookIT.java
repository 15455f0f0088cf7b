package tepidarium.alert.notify.channel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tepidarium.alert.Priority;
import tepidarium.alert.notify.Delivery;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.DeliveryOutcome.Result;
import tepidarium.alert.notify.Notice;
import tepidarium.alert.notify.NoticeKind;

/** The webhook and the heartbeat against a real HTTP receiver that fails, hangs and recovers. */
class WebhookIT {
  private static final Instant NOW = Instant.parse("2026-03-04T02:21:00Z");

  /** What the receiver got. */
  private record Got(String method, String path, Headers headers, String body) {}

  private final List<Got> got = new CopyOnWriteArrayList<>();
  private final CountDownLatch enough = new CountDownLatch(1);
  private final ExecutorService threads = Executors.newCachedThreadPool();
  private HttpServer receiver;
  private volatile int status = 204;
  private volatile boolean hangs;

  @BeforeEach
  void listen() throws IOException {
    receiver = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    receiver.setExecutor(threads);
    receiver.createContext(
        "/",
        exchange -> {
          String body =
              new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
          got.add(
              new Got(
                  exchange.getRequestMethod(),
                  exchange.getRequestURI().toString(),
                  exchange.getRequestHeaders(),
                  body));
          if (hangs) {
            awaitEnd();
          }
          exchange.getResponseHeaders().add("Location", "/elsewhere");
          exchange.sendResponseHeaders(status, -1);
          exchange.close();
        });
    receiver.start();
  }

  private void awaitEnd() {
    try {
      enough.await(60, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @AfterEach
  void stop() {
    enough.countDown();
    receiver.stop(0);
    threads.shutdownNow();
  }

  private URI url() {
    return URI.create("http://127.0.0.1:" + receiver.getAddress().getPort() + "/hook?token=hidden");
  }

  private DeliveryOutcome send(String secret, Duration limit) {
    Notice notice =
        new Notice(
            7,
            NoticeKind.RAISED,
            Priority.HIGH,
            NOW,
            "Jar Säule is too cold",
            "24.5 °C\n",
            null,
            List.of(new Notice.About(12L, "jar-1", "cold", true)));
    return new WebhookNotifier(url(), secret, Clock.fixed(NOW, ZoneOffset.UTC), limit)
        .deliver(new Delivery(9, notice, "webhook", Delivery.State.WAITING, 0, NOW, null, null));
  }

  private DeliveryOutcome send() {
    return send("a secret", Duration.ofSeconds(30));
  }

  @Test
  void theReceiverCanVerifySenderContentAndTime() throws IOException {
    DeliveryOutcome outcome = send();
    assertEquals(Result.DELIVERED, outcome.result(), outcome.words());
    Got post = got.get(0);
    assertEquals("POST /hook?token=hidden", post.method() + ' ' + post.path());
    JsonNode notice = new ObjectMapper().readTree(post.body());
    assertEquals("Jar Säule is too cold", notice.path("subject").asText());
    assertEquals("2026-03-04T02:21:00Z", notice.path("createdAt").asText());
    assertEquals(12, notice.at("/about/0/alert").asInt());
    assertEquals("1772590860", post.headers().getFirst("Tepidarium-Timestamp"));
    String signature = "sha256=" + Signature.hmac("a secret", "1772590860." + post.body());
    assertEquals(signature, post.headers().getFirst("Tepidarium-Signature"));
    assertEquals("1772590860000-9", post.headers().getFirst("Tepidarium-Delivery"));
  }

  @Test
  void withoutASecretItIsNotSigned() {
    assertEquals(Result.DELIVERED, send(null, Duration.ofSeconds(30)).result());
    assertFalse(got.get(0).headers().containsKey("Tepidarium-Signature"));
  }

  @Test
  void aReceiverThatFailsAtFirstGetsTheNoticeLater() {
    status = 503;
    DeliveryOutcome outcome = send();
    assertEquals(Result.LATER, outcome.result());
    assertTrue(outcome.words().contains("503"), outcome.words());
    assertFalse(outcome.words().contains("hidden"), outcome.words());
    status = 200;
    assertEquals(Result.DELIVERED, send().result());
  }

  @Test
  void aHangingReceiverIsAbandonedAfterTheTimeLimit() {
    hangs = true;
    DeliveryOutcome outcome = send("a secret", Duration.ofSeconds(1));
    assertEquals(Result.LATER, outcome.result());
    assertTrue(outcome.words().contains("did not answer within 1 s"), outcome.words());
  }

  @Test
  void aRedirectIsNotFollowed() {
    status = 302;
    assertEquals(Result.LATER, send().result());
    assertEquals(1, got.size());
  }

  @Test
  void anUnreachableReceiverIsReported() {
    URI nobody = url();
    receiver.stop(0);
    DeliveryOutcome outcome = send();
    assertEquals(Result.LATER, outcome.result());
    assertTrue(outcome.words().contains("127.0.0.1:" + nobody.getPort()), outcome.words());
  }

  @Test
  void theHeartbeatCallsItsAddress() {
    assertEquals(Result.DELIVERED, new Heartbeat(url()).beat().result());
    assertEquals("GET", got.get(0).method());
    status = 500;
    assertEquals(Result.LATER, new Heartbeat(url()).beat().result());
  }
}
