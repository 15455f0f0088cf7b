package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tepidarium.it.Grower;
import tepidarium.it.Influx;
import tepidarium.it.Mosquitto;
import tepidarium.it.Ports;
import tepidarium.it.Postgres;
import tepidarium.it.ServiceProcess;

/**
 * Two services with one PostgreSQL and one Mosquitto, and their readings in that PostgreSQL or in
 * InfluxDB. The one that works is killed or frozen; the other takes over.
 */
class TakeOverIT {
  private static final String DATABASE = "garden";
  private static final int SENSORS = 4;
  private static final int ENOUGH = 300;

  @TempDir private Path folder;

  /** Servers; without InfluxDB the readings are in PostgreSQL. */
  private record Site(Postgres postgres, @Nullable Influx influx, Mosquitto mosquitto)
      implements AutoCloseable {
    static Site in(Path folder, boolean withInflux) {
      Postgres postgres = Postgres.started();
      postgres.create(DATABASE);
      return new Site(
          postgres,
          withInflux ? Influx.started(folder.resolve("influx")) : null,
          Mosquitto.started(folder.resolve("mosquitto")));
    }

    ServiceProcess service(Path data) {
      Map<String, String> settings = new HashMap<>(database("RECORDS"));
      if (influx == null) {
        settings.putAll(database("READINGS"));
      } else {
        settings.put("TEPIDARIUM_INFLUX_URL", influx.address(DATABASE).url());
        settings.put("TEPIDARIUM_INFLUX_DATABASE", DATABASE);
      }
      settings.put("TEPIDARIUM_STANDBY", "true");
      return ServiceProcess.start(
          data, Ports.free(), "tcp://127.0.0.1:" + mosquitto.port(), settings);
    }

    private Map<String, String> database(String of) {
      String name = "TEPIDARIUM_" + of;
      return Map.of(
          name + "_URL",
          postgres.url(DATABASE),
          name + "_USER",
          Postgres.USER,
          name + "_PASSWORD",
          Postgres.PASSWORD);
    }

    String ask(String sql) {
      return postgres.ask(DATABASE, sql).get(0);
    }

    String owner() {
      return ask("SELECT owner FROM lease");
    }

    long readings() {
      return influx == null
          ? Long.parseLong(ask("SELECT count(temperature) FROM readings.reading"))
          : influx.count(DATABASE, "temperature");
    }

    @Override
    public void close() {
      mosquitto.close();
      if (influx != null) {
        influx.close();
      }
      postgres.close();
    }
  }

  @ParameterizedTest
  @CsvSource({"KILL, true", "STOP, false"})
  void theOtherServiceTakesOver(String signal, boolean withInflux) {
    try (Site site = Site.in(folder, withInflux);
        ServiceProcess first = site.service(folder.resolve("first"))) {
      first.grower().container("Bag");
      String owner = site.owner();
      CompletableFuture<ServiceProcess> starting =
          CompletableFuture.supplyAsync(() -> site.service(folder.resolve("second")));
      try (Load load = Load.on(site.mosquitto().port(), SENSORS)) {
        load.awaitMore(ENOUGH);
        await().atMost(Form.SOON).until(() -> site.readings() > 0);
        assertFalse(starting.isDone());

        signal(signal, first);
        long from = System.nanoTime();
        await().atMost(Form.SOON).until(() -> !site.owner().equals(owner));
        try (ServiceProcess second = starting.join()) {
          double ready = secondsSince(from);
          check(site, second, load, signal, ready);
          if (signal.equals("STOP")) {
            String epoch = site.ask("SELECT epoch FROM lease");
            signal("CONT", first);
            await().atMost(Form.SOON).until(() -> !first.isAlive());
            assertEquals(epoch, site.ask("SELECT epoch FROM lease"));
            second.grower().awaitBroker();
            second.grower().container("Third");
          }
        }
      } finally {
        // After a failure, the second one would wait for the first and then go on.
        first.kill();
        starting.thenAccept(ServiceProcess::close).exceptionally(failure -> null).join();
      }
    }
  }

  private static void check(
      Site site, ServiceProcess second, Load load, String signal, double ready) {
    Grower grower = second.grower();
    assertEquals(1, grower.api().get("/api/containers").size());
    grower.container("Other");
    load.awaitMore(ENOUGH);
    load.finish();
    long sent = load.acknowledged();
    await().atMost(Form.SOON).until(() -> site.readings() >= sent);
    await().atMost(Form.SOON).until(() -> Tally.of(grower).addsUp());
    assertEquals(sent, site.readings());
    new Row(
            "working service: SIG" + signal + "; the other takes over",
            Tally.of(grower),
            Math.max(0, sent - site.readings()),
            Math.max(0, site.readings() - sent),
            ready)
        .check();
  }

  private static double secondsSince(long nanos) {
    return (System.nanoTime() - nanos) / 1e9;
  }

  private static void signal(String name, ServiceProcess service) {
    try {
      new ProcessBuilder(List.of("kill", "-" + name, String.valueOf(service.pid())))
          .start()
          .onExit()
          .join();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
