package tepidarium.web.files;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.javalin.Javalin;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Arrays;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.container.Register;
import tepidarium.exchange.RecordExchange;
import tepidarium.exchange.RecordStores;
import tepidarium.exchange.RecordZip;
import tepidarium.exchange.Table;
import tepidarium.germination.SeedJournal;
import tepidarium.records.ContainerRecords;
import tepidarium.records.Database;
import tepidarium.records.GerminationRecords;
import tepidarium.records.SensorRecords;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.sensor.SensorBook;
import tepidarium.web.server.RouteServer;

/** Imports of zip files over HTTP, some at the same time. */
class RecordRoutesTest {
  private Database database;
  private SensorBook sensors;
  private Javalin server;

  @BeforeEach
  void start(@TempDir Path folder) {
    database = SqliteRecords.open(folder.resolve("records.db"));
    RecordStores stores =
        new RecordStores(
            new ContainerRecords(database),
            new SensorRecords(database),
            new GerminationRecords(database),
            Runnable::run);
    Register register = new Register(stores.containers());
    sensors = new SensorBook(stores.sensors());
    SeedJournal journal = new SeedJournal(stores.germination(), register);
    RecordRoutes routes =
        new RecordRoutes(new RecordExchange(register, journal, sensors, stores), Clock.systemUTC());
    server = RouteServer.start(config -> routes.add(config.routes));
  }

  @AfterEach
  void stop() {
    server.stop();
    sensors.close();
    database.close();
  }

  private HttpResponse<String> send(byte[] body) throws IOException, InterruptedException {
    URI uri = URI.create("http://127.0.0.1:" + server.port() + RecordRoutes.PATH);
    HttpRequest request =
        HttpRequest.newBuilder(uri).POST(BodyPublishers.ofByteArray(body)).build();
    return HttpClient.newHttpClient().send(request, BodyHandlers.ofString());
  }

  @Test
  void oneZipFileIsReadAtATime() throws Exception {
    byte[] body = new byte[1 << 20];
    try (Socket first = new Socket("127.0.0.1", server.port())) {
      OutputStream out = first.getOutputStream();
      String head =
          "POST %s HTTP/1.1\r\nHost: x\r\nConnection: close\r\nContent-Length: 2\r\n\r\nx"
              .formatted(RecordRoutes.PATH);
      out.write(head.getBytes(StandardCharsets.US_ASCII));
      await().until(() -> send(body).statusCode() == 409);
      String words = send(body).body();
      assertTrue(words.contains("another zip file is being imported"), words);
      out.write('x');
      String answer = new String(first.getInputStream().readAllBytes(), StandardCharsets.US_ASCII);
      assertTrue(answer.startsWith("HTTP/1.1 400 "), answer);
    }
    assertEquals(400, send(body).statusCode(), "the next one is read");
  }

  @Test
  void aFileThatWasCutOffIsNoBrokenConnection() throws Exception {
    ByteArrayOutputStream zip = new ByteArrayOutputStream();
    RecordZip.write(Map.of(Table.LOTS, "lot,species"), zip);
    HttpResponse<String> answer = send(Arrays.copyOf(zip.toByteArray(), 40));
    assertEquals(400, answer.statusCode());
    assertTrue(answer.body().contains("the zip file is damaged"), answer.body());
  }
}
