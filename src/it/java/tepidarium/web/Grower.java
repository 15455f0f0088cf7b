package tepidarium.web;

import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;

/**
 * A shelf with a history of two and a half hours: a jar that was warm, then too cold and too dry
 * and once lit, a jar without a sensor, a room sensor, and a sensor that lies about.
 */
final class Grower implements AutoCloseable {
  static final String SENSOR = "probe_7";
  static final String ROOM_SENSOR = "shelf-air";
  static final String SPARE = "Spare";

  private final CheckedApi api;
  private final MqttClient mqtt;
  private final Instant start = Instant.now().truncatedTo(ChronoUnit.MINUTES);

  Grower(CheckedApi api, int mqttPort) {
    this.api = api;
    try {
      this.mqtt = new MqttClient("tcp://127.0.0.1:" + mqttPort, "sensors", new MemoryPersistence());
      mqtt.connect();
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
  }

  /** So many minutes before the shelf was set up. */
  Instant ago(long minutes) {
    return start.minus(Duration.ofMinutes(minutes));
  }

  void publish(String topic, String payload) {
    try {
      mqtt.publish("tepidarium/" + topic, payload.getBytes(StandardCharsets.UTF_8), 1, false);
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
  }

  void setUpShelf() {
    api.post(
        "/api/containers", "{\"name\":\"Jar 1\",\"kind\":\"jar\",\"heatSource\":\"mat\"}", 201);
    api.post("/api/containers", "{\"name\":\"Empty tray\",\"kind\":\"tray\"}", 201);
    // First heard, then placed: otherwise it would count as silent in between.
    publish(SENSOR, "{\"battery\":3.9}");
    publish(ROOM_SENSOR + "/temperature", "19.5");
    awaitHeard(SENSOR);
    awaitHeard(ROOM_SENSOR);
    place(SENSOR, "jar-1");
    place(ROOM_SENSOR, "room");
    publish(SENSOR, backlog());
    publish(SPARE, "{\"temperature\":21,\"battery\":3.7}");
    publish(SENSOR, "{\"temperature\":\"warm\"}");
    await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> alerts().size() == 3 && sensors() == 3 && rejects() > 0);
  }

  private void place(String sensor, String where) {
    String body = "{\"container\":\"" + where + "\",\"from\":\"" + ago(200) + "\"}";
    api.put("/api/sensors/" + sensor + "/placement", body);
  }

  /**
   * A container that was warm and dark but for two openings that nobody announced, 175 and 100
   * minutes ago: too long ago to raise anything.
   */
  void peekTwice(String container, String sensor) {
    api.post("/api/containers", "{\"name\":\"" + container + "\",\"kind\":\"bag\"}", 201);
    // First heard, then placed: otherwise it would count as silent in between.
    publish(sensor, "{\"temperature\":31,\"humidity\":92,\"light\":0}");
    awaitHeard(sensor);
    place(sensor, container);
    List<String> entries = new ArrayList<>();
    for (int minute = 195; minute >= 65; minute--) {
      int since = minute > 100 ? 175 - minute : 100 - minute;
      boolean lit = since >= 0 && since < 5;
      double share =
          since < 0 ? 0 : Math.min(since / 5.0, 1) * Math.exp(-Math.max(0, since - 5) / 6.0);
      entries.add(entry(minute, 31 - 3 * share, 92 - 20 * share, lit ? 150 : 0));
    }
    publish(sensor, '[' + String.join(",", entries) + ']');
  }

  void awaitHeard(String sensor) {
    await()
        .atMost(Duration.ofSeconds(30))
        .until(() -> api.get("/api/sensors").findValuesAsText("sensor").contains(sensor));
  }

  JsonNode alerts() {
    return api.get("/api/alerts");
  }

  /** The one open alert of a kind. */
  JsonNode alert(String kind) {
    for (JsonNode alert : alerts()) {
      if (alert.path("kind").asText().equals(kind)) {
        return alert;
      }
    }
    throw new AssertionError("no open " + kind + " alert: " + alerts());
  }

  private int sensors() {
    int heard = 0;
    for (JsonNode sensor : api.get("/api/sensors")) {
      heard += sensor.path("lastHeard").isNull() ? 0 : 1;
    }
    return heard;
  }

  private int rejects() {
    return api.get("/api/rejects").path("total").asInt();
  }

  /** Warm until 150 to 100 minutes ago, then a gap, then 50 minutes in which things go wrong. */
  private String backlog() {
    List<String> entries = new ArrayList<>();
    for (int minute = 150; minute >= 100; minute -= 10) {
      entries.add(entry(minute, 31, 95, 0));
    }
    for (int minute = 50; minute >= 2; minute--) {
      boolean lit = minute <= 45 && minute >= 42;
      entries.add(entry(minute, minute > 30 ? 31 : 24, 70, lit ? 60 : 0));
    }
    return '[' + String.join(",", entries) + ']';
  }

  private String entry(int minute, double temperature, double humidity, double light) {
    return String.format(
        Locale.ROOT,
        "{\"temperature\":%s,\"humidity\":%s,\"light\":%s,\"battery\":3.9,\"at\":\"%s\"}",
        temperature,
        humidity,
        light,
        ago(minute));
  }

  @Override
  public void close() {
    try {
      mqtt.disconnect();
      mqtt.close();
    } catch (MqttException e) {
      throw new IllegalStateException(e);
    }
  }
}
