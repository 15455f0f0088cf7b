package tepidarium.web.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.javalin.Javalin;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tepidarium.container.MemoryContainers;
import tepidarium.container.Register;
import tepidarium.exporting.ReadingExport;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.SensorId;
import tepidarium.rollup.MemoryReadings;
import tepidarium.series.StoreException;
import tepidarium.web.server.RouteServer;

/** An export over HTTP when the store fails. */
class ExportRoutesTest {
  private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");

  private final MemoryReadings readings = new MemoryReadings();
  private Javalin server;

  @BeforeEach
  void start() {
    Register register = new Register(new MemoryContainers());
    ExportRoutes routes = new ExportRoutes(new ReadingExport(readings, register));
    server = RouteServer.start(config -> routes.add(config.routes));
  }

  @AfterEach
  void stop() {
    server.stop();
  }

  private HttpResponse<String> export() throws IOException, InterruptedException {
    URI uri = URI.create("http://127.0.0.1:" + server.port() + "/api/export/readings");
    return HttpClient.newHttpClient()
        .send(HttpRequest.newBuilder(uri).build(), BodyHandlers.ofString());
  }

  private void storeDays(int days) {
    List<Reading> all = new ArrayList<>();
    for (int i = 0; i < days * 1440; i++) {
      Instant at = START.plusSeconds(60L * i);
      all.add(new Reading(new SensorId("jar-1"), at, Map.of(Quantity.TEMPERATURE, 30.0), null));
    }
    readings.write(all);
  }

  private void failAfter(int reads) {
    if (reads == 0) {
      readings.afterNextRead(
          () -> {
            throw new StoreException("the disk does not answer", new IOException());
          });
    } else {
      readings.afterNextRead(() -> failAfter(reads - 1));
    }
  }

  @Test
  void aFailureInTheMiddleBreaksTheConnectionOff() throws Exception {
    storeDays(6);
    assertEquals(6 * 1440 + 1, export().body().lines().count());
    failAfter(4);
    assertThrows(IOException.class, this::export);
  }

  @Test
  void aFailureBeforeTheFirstPieceIsAProblem() throws Exception {
    storeDays(1);
    failAfter(0);
    HttpResponse<String> answer = export();
    assertEquals(503, answer.statusCode());
    assertTrue(answer.body().contains("the disk does not answer"), answer.body());
  }
}
