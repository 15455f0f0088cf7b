package tepidarium.series;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentSkipListSet;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Influx;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;
import tepidarium.series.influx.InfluxAddress;
import tepidarium.series.influx.InfluxReadings;

/** Tests the ways of logging in to InfluxDB. */
class InfluxLoginIT {
  private static final List<Reading> BATCH =
      List.of(
          Readings.ofAir(
              new SensorId("bag"), Instant.parse("2026-03-01T06:00:00Z"), 30.0, null, null, null));

  private static InfluxReadings store(Influx influx, @Nullable String user, String password) {
    InfluxAddress address = influx.address("seeds");
    return new InfluxReadings(
        new InfluxAddress(address.url(), "seeds", user, user == null ? null : password, null));
  }

  @Test
  void onlyAUserWithRightsToTheDatabaseCanLogIn(@TempDir Path folder) {
    try (Influx influx = Influx.withLogin(folder, "admin", "top");
        InfluxReadings good = store(influx, "grower", "secret");
        InfluxReadings wrong = store(influx, "grower", "guess");
        InfluxReadings stranger = store(influx, null, "")) {
      influx.run("", "CREATE DATABASE seeds");
      influx.run("", "CREATE USER grower WITH PASSWORD 'secret'");
      influx.run("", "GRANT ALL ON seeds TO grower");

      good.probe();
      assertEquals(new WriteResult(1, 0), good.write(BATCH));
      assertEquals(1, good.summaries().size());
      for (InfluxReadings other : List.of(wrong, stranger)) {
        StoreException e = assertThrows(StoreException.class, () -> other.write(BATCH));
        assertTrue(String.valueOf(e.getMessage()).contains("auth"), e::toString);
        assertThrows(StoreException.class, other::probe);
      }
    }
  }

  @Test
  void aServerThatIsNotInfluxCountsAsUnreachableAndReadingsAreKept() throws IOException {
    HttpServer server =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    byte[] nothing = "{}".getBytes(StandardCharsets.US_ASCII);
    server.createContext(
        "/",
        exchange -> {
          exchange.sendResponseHeaders(200, nothing.length);
          exchange.getResponseBody().write(nothing);
          exchange.close();
        });
    server.start();
    String url = "http://127.0.0.1:" + server.getAddress().getPort();
    try (InfluxReadings store =
        new InfluxReadings(new InfluxAddress(url, "seeds", null, null, null))) {
      for (Executable call : List.<Executable>of(() -> store.write(BATCH), store::summaries)) {
        StoreException e = assertThrows(StoreException.class, call);
        assertTrue(String.valueOf(e.getMessage()).contains("is it InfluxDB?"), e::toString);
      }
    } finally {
      server.stop(0);
    }
  }

  @Test
  void aTokenGoesInTheHeaderOfEachRequest() throws IOException {
    Set<String> seen = new ConcurrentSkipListSet<>();
    HttpServer server =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext(
        "/",
        exchange -> {
          seen.add(exchange.getRequestHeaders().getFirst("Authorization"));
          exchange.sendResponseHeaders(503, -1);
          exchange.close();
        });
    server.start();
    String url = "http://127.0.0.1:" + server.getAddress().getPort();
    InfluxAddress address = new InfluxAddress(url, "seeds", null, null, "abc123");
    try (InfluxReadings store = new InfluxReadings(address)) {
      StoreException e = assertThrows(StoreException.class, store::probe);
      assertTrue(String.valueOf(e.getMessage()).contains("503"), e::toString);
    } finally {
      server.stop(0);
    }

    assertEquals(Set.of("Token abc123"), seen);
  }
}
