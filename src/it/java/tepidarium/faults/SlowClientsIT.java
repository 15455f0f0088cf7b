package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Api;
import tepidarium.it.Grower;
import tepidarium.it.RunningService;

/** Clients that send a body byte by byte, and clients that ask for much and do not read it. */
class SlowClientsIT {
  private static final int OF_EACH_KIND = 60;
  private static final int REQUESTS_IN_A_ROW = 300;
  private static final int BUFFER_BYTES = 4_096;
  private static final int READINGS = 20;

  @TempDir private Path folder;

  private final List<Socket> sockets = new ArrayList<>();
  private final List<Socket> trickled = new ArrayList<>();
  private final ScheduledExecutorService trickling = Executors.newSingleThreadScheduledExecutor();
  private RunningService service;

  @BeforeEach
  void start() {
    service = RunningService.embedded(folder.resolve("data"));
    new Grower(service.api()).awaitBroker();
  }

  @AfterEach
  void stop() throws IOException {
    trickling.shutdownNow();
    for (Socket socket : sockets) {
      socket.close();
    }
    service.close();
  }

  private Socket connect() throws IOException {
    Socket socket = new Socket();
    socket.setReceiveBufferSize(BUFFER_BYTES);
    URI url = URI.create(service.url());
    socket.connect(new InetSocketAddress(url.getHost(), url.getPort()));
    sockets.add(socket);
    return socket;
  }

  private void send(Socket socket, String text) throws IOException {
    socket.getOutputStream().write(text.getBytes(StandardCharsets.US_ASCII));
    socket.getOutputStream().flush();
  }

  /** Begins a body and sends a byte of it each second, for as long as the service lets it. */
  private void trickle() throws IOException {
    Socket socket = connect();
    trickled.add(socket);
    send(
        socket,
        "POST /api/containers HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
            + "Content-Length: 100000\r\n\r\n{");
    trickling.scheduleAtFixedRate(() -> oneByte(socket), 1, 1, TimeUnit.SECONDS);
  }

  private static void oneByte(Socket socket) {
    try {
      socket.getOutputStream().write(' ');
    } catch (IOException e) {
      // The service has closed it.
    }
  }

  private void askAndDoNotRead() throws IOException {
    String request = "GET /api/openapi.json HTTP/1.1\r\nHost: localhost\r\n\r\n";
    send(connect(), request.repeat(REQUESTS_IN_A_ROW));
  }

  @Test
  void slowClientsDoNotBlockOthers() throws IOException {
    for (int i = 0; i < OF_EACH_KIND; i++) {
      trickle();
      askAndDoNotRead();
    }
    assertTrue(medianMs("/api/health") < 1_000);
    assertTrue(medianMs("/") < 1_000);
    assertTrue(medianMs("/api/containers") < 1_000);
    readingsAreStored();
    await("bodies that trickle are given up")
        .atMost(Duration.ofSeconds(10))
        .until(() -> trickled.stream().allMatch(SlowClientsIT::hasAnswerOrEnd));
  }

  /** The median of five times to an answer, each over a connection of its own. */
  private long medianMs(String path) {
    List<Long> times = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      long start = System.nanoTime();
      assertEquals(200, new Api(service.url()).call("GET", path, null).status());
      times.add((System.nanoTime() - start) / 1_000_000);
    }
    System.out.println("ms to " + path + " with slow clients: " + times);
    return times.stream().sorted().toList().get(2);
  }

  private void readingsAreStored() throws IOException {
    try (MqttSocket sensor = new MqttSocket(service.mqttPort(), "sensor", 1 << 12)) {
      sensor.awaitConnected();
      for (int i = 1; i <= READINGS; i++) {
        String payload = "{\"temperature\":30,\"at\":" + (Load.FIRST_SECOND + i) + "}";
        sensor.publish(i, "tepidarium/jar", payload.getBytes(StandardCharsets.UTF_8), false);
      }
      sensor.flush();
      Api api = new Api(service.url());
      await("the readings are stored")
          .atMost(Duration.ofSeconds(10))
          .until(() -> api.get("/api/health").at("/counts/stored").asInt() == READINGS);
    }
  }

  /** Whether the service has refused the request, or closed the connection. */
  private static boolean hasAnswerOrEnd(Socket socket) {
    try {
      socket.setSoTimeout(10);
      return socket.getInputStream().read() != 0;
    } catch (SocketTimeoutException e) {
      return false;
    } catch (IOException e) {
      return true;
    }
  }
}
