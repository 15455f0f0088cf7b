package tepidarium.app;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.client.MqttClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;

/**
 * Starts the service twice on the same folder, on free ports of the loopback address: the first
 * start creates the stores, the second finds them as every later start does. Each takes a reading
 * and serves pages. Java records the classes that this loads.
 */
final class TrainingRun {
  private static final Duration TIMEOUT = Duration.ofSeconds(60);
  private static final int STARTS = 2;
  private static final List<String> PAGES =
      List.of(
          "/", "/shared/page.js", "/api/health", "/api/containers", "/api/sensors", "/api/setup");

  private final HttpClient client = HttpClient.newHttpClient();
  private final Path folder;

  private TrainingRun(Path folder) {
    this.folder = folder;
  }

  /**
   * Starts the service twice and stops it each time.
   *
   * @throws IllegalStateException when the service does not start or a page does not answer
   */
  static void run(Path folder) throws IOException, MqttException, InterruptedException {
    TrainingRun run = new TrainingRun(folder);
    for (int start = 1; start <= STARTS; start++) {
      run.start(start);
    }
  }

  private void start(int number) throws IOException, MqttException, InterruptedException {
    int mqttPort = freePort();
    Map<String, String> settings =
        Map.of(
            "data", folder.toString(),
            "httpHost", "127.0.0.1",
            "httpPort", "0",
            "mqttHost", "127.0.0.1",
            "mqttPort", String.valueOf(mqttPort));
    Config config = ConfigReader.read(null, Map.of(), settings);
    try (Service service = Service.start(config, Clock.tickMillis(ZoneOffset.UTC), false)) {
      publish(mqttPort, number);
      String base = "http://127.0.0.1:" + service.httpPort();
      awaitStored(base);
      for (String page : PAGES) {
        get(base + page);
      }
    }
  }

  private static void publish(int port, int number) throws MqttException {
    String broker = "tcp://127.0.0.1:" + port;
    MqttClient sensor = new MqttClient(broker, "training", new MemoryPersistence());
    sensor.connect();
    String reading = "{\"temperature\":" + (30 + number) + ",\"humidity\":95}";
    sensor.publish(
        "tepidarium/training", new MqttMessage(reading.getBytes(StandardCharsets.UTF_8)));
    sensor.disconnect();
    sensor.close();
  }

  private void awaitStored(String base) throws IOException, InterruptedException {
    long end = System.nanoTime() + TIMEOUT.toNanos();
    while (!get(base + "/api/health").contains("\"stored\":1")) {
      if (System.nanoTime() - end > 0) {
        throw new IllegalStateException("the reading of the training run was not stored");
      }
      TimeUnit.MILLISECONDS.sleep(20);
    }
  }

  private String get(String address) throws IOException, InterruptedException {
    HttpRequest request = HttpRequest.newBuilder(URI.create(address)).timeout(TIMEOUT).build();
    HttpResponse<String> response = client.send(request, HttpResponse.BodyHandlers.ofString());
    if (response.statusCode() != 200) {
      throw new IllegalStateException(address + " answered " + response.statusCode());
    }
    return response.body();
  }

  private static int freePort() throws IOException {
    try (ServerSocket probe = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return probe.getLocalPort();
    }
  }
}
