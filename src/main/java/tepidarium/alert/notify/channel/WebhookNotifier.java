package tepidarium.alert.notify.channel;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.time.Clock;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.notify.Delivery;
import tepidarium.alert.notify.DeliveryOutcome;
import tepidarium.alert.notify.NoticeJson;
import tepidarium.alert.notify.Notifier;

/**
 * Posts the notice as JSON. {@code Tepidarium-Delivery} is the same for each attempt of a delivery.
 * With a secret, {@code Tepidarium-Signature} is {@code sha256=} and the hexadecimal HMAC-SHA256 of
 * {@code Tepidarium-Timestamp} (epoch seconds of the attempt), a full stop and the body. A response
 * status from 200 to 299 within 15 s means delivered. Thread-safe.
 */
public final class WebhookNotifier implements Notifier {
  private static final Duration LIMIT = Duration.ofSeconds(15);
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .addModule(new JavaTimeModule())
          .disable(SerializationFeature.WRITE_DATES_AS_TIMESTAMPS)
          .build();

  private final URI url;
  private final @Nullable String secret;
  private final Clock clock;
  private final HttpSender web;

  /**
   * Creates the notifier; does not connect.
   *
   * @param secret key of the signature; null for no signature
   */
  public WebhookNotifier(URI url, @Nullable String secret, Clock clock) {
    this(url, secret, clock, LIMIT);
  }

  WebhookNotifier(URI url, @Nullable String secret, Clock clock, Duration limit) {
    this.url = url;
    this.secret = secret;
    this.clock = clock;
    this.web = new HttpSender(limit);
  }

  @Override
  public String name() {
    return "webhook";
  }

  @Override
  public String kind() {
    return "webhook";
  }

  @Override
  public String target() {
    return HttpSender.shown(url) + (secret == null ? ", unsigned" : ", signed");
  }

  @Override
  public DeliveryOutcome deliver(Delivery delivery) {
    String body = json(NoticeJson.of(delivery.notice()));
    String timestamp = String.valueOf(clock.instant().getEpochSecond());
    String number = delivery.notice().createdAt().toEpochMilli() + "-" + delivery.id();
    HttpRequest.Builder request =
        HttpRequest.newBuilder(url)
            .header("Content-Type", "application/json; charset=utf-8")
            .header("Tepidarium-Delivery", number)
            .header("Tepidarium-Timestamp", timestamp)
            .POST(BodyPublishers.ofString(body));
    if (secret != null) {
      String signature = "sha256=" + Signature.of(secret, timestamp, body);
      request.header("Tepidarium-Signature", signature);
    }
    return web.send(request.build());
  }

  private static String json(NoticeJson notice) {
    try {
      return JSON.writeValueAsString(notice);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("cannot write a notice as JSON", e);
    }
  }
}
