package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.CompletableFuture;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.it.Cable;
import tepidarium.it.Grower;
import tepidarium.it.Influx;
import tepidarium.it.Mosquitto;
import tepidarium.it.Ports;
import tepidarium.it.Postgres;
import tepidarium.it.SeparateNetwork;
import tepidarium.it.ServiceProcess;

/**
 * Two services with one PostgreSQL and one Mosquitto, and their readings in that PostgreSQL or in
 * InfluxDB. The one that works is killed, frozen or cut off; the other takes over. The long form,
 * which cuts off, needs root.
 */
class TakeOverIT {
  private static final String DATABASE = "garden";
  private static final int SENSORS = 4;
  private static final int ENOUGH = 300;

  @TempDir private Path folder;

  /** What happens to the service that works. */
  private enum Trouble {
    KILLED("working service: SIGKILL", 15),
    FROZEN("working service: SIGSTOP", 15),
    CUT_OFF("working service cut off from PostgreSQL", 15),
    LEADER_KILLED_TOO("working service and PostgreSQL: SIGKILL", 20),
    BROKER_CUT_OFF("working service cut off from the broker", 120);

    private final String words;

    /** The goal for the time until the other service owns the database. */
    private final int goalSeconds;

    Trouble(String words, int goalSeconds) {
      this.words = words;
      this.goalSeconds = goalSeconds;
    }
  }

  static List<Trouble> troubles() {
    return List.of(Trouble.values()).subList(0, Form.of(2, Trouble.values().length));
  }

  /**
   * Servers; without InfluxDB the readings are in PostgreSQL. A server that the first service is
   * cut off from is in a network of its own, which only the first service reaches by that cable.
   */
  private record Site(
      @Nullable SeparateNetwork network,
      @Nullable Cable ofFirst,
      Postgres postgres,
      @Nullable Postgres standby,
      @Nullable Influx influx,
      Mosquitto mosquitto)
      implements AutoCloseable {
    static Site in(Path folder, Trouble trouble) {
      boolean fromDatabase = trouble == Trouble.CUT_OFF;
      boolean fromBroker = trouble == Trouble.BROKER_CUT_OFF;
      SeparateNetwork network = fromDatabase || fromBroker ? SeparateNetwork.made(3) : null;
      Postgres postgres = Postgres.started(fromDatabase ? network : null);
      postgres.create(DATABASE);
      return new Site(
          network,
          network == null ? null : Cable.to(network, 4),
          postgres,
          trouble == Trouble.LEADER_KILLED_TOO ? postgres.withStandby() : null,
          trouble == Trouble.KILLED ? Influx.started(folder.resolve("influx")) : null,
          Mosquitto.started(folder.resolve("mosquitto"), fromBroker ? network : null));
    }

    ServiceProcess first(Path folder, Trouble trouble) {
      String host = ofFirst == null ? "127.0.0.1" : ofFirst.host();
      String database = trouble == Trouble.CUT_OFF ? host : postgres.host();
      String broker = trouble == Trouble.BROKER_CUT_OFF ? host : mosquitto.host();
      return service(folder.resolve("first"), database + ':' + postgres.port(), broker);
    }

    ServiceProcess second(Path folder) {
      String leader = postgres.host() + ':' + postgres.port();
      return service(
          folder.resolve("second"),
          standby == null ? leader : leader + ",127.0.0.1:" + standby.port(),
          mosquitto.host());
    }

    private ServiceProcess service(Path data, String servers, String broker) {
      String url = "postgresql://" + servers + '/' + DATABASE;
      Map<String, String> settings = new HashMap<>(Postgres.environment("RECORDS", url));
      if (influx == null) {
        settings.putAll(Postgres.environment("READINGS", url));
      } else {
        settings.put("TEPIDARIUM_INFLUX_URL", influx.address(DATABASE).url());
        settings.put("TEPIDARIUM_INFLUX_DATABASE", DATABASE);
      }
      settings.put("TEPIDARIUM_STANDBY", "true");
      return ServiceProcess.start(
          data, Ports.free(), "tcp://" + broker + ':' + mosquitto.port(), settings);
    }

    String ask(String sql) {
      Postgres leader = standby == null ? postgres : standby;
      return leader.ask(DATABASE, sql).get(0);
    }

    String owner() {
      return ask("SELECT owner FROM lease");
    }

    long readings() {
      return influx == null
          ? Long.parseLong(ask("SELECT count(temperature) FROM readings.reading"))
          : influx.count(DATABASE, "temperature");
    }

    /** Lets it happen. A manager of the database would find a new leader like this. */
    void happen(Trouble trouble, ServiceProcess first) {
      switch (trouble) {
        case KILLED -> signal("KILL", first);
        case FROZEN -> signal("STOP", first);
        case CUT_OFF, BROKER_CUT_OFF -> Objects.requireNonNull(ofFirst).cut();
        case LEADER_KILLED_TOO -> {
          signal("KILL", first);
          postgres.kill();
          Objects.requireNonNull(standby).promote();
        }
      }
    }

    @Override
    public void close() {
      mosquitto.close();
      if (influx != null) {
        influx.close();
      }
      if (standby != null) {
        standby.close();
      }
      postgres.close();
      if (network != null) {
        Objects.requireNonNull(ofFirst).close();
        network.close();
      }
    }
  }

  @ParameterizedTest
  @MethodSource("troubles")
  void theOtherServiceTakesOver(Trouble trouble) {
    try (Site site = Site.in(folder, trouble);
        ServiceProcess first = site.first(folder, trouble)) {
      first.grower().container("Bag");
      String owner = site.owner();
      CompletableFuture<ServiceProcess> starting =
          CompletableFuture.supplyAsync(() -> site.second(folder));
      try (Load load = Load.on(site.mosquitto().host(), site.mosquitto().port(), SENSORS)) {
        load.awaitMore(ENOUGH);
        await().atMost(Form.SOON).until(() -> site.readings() > 0);
        assertFalse(starting.isDone());

        long from = System.nanoTime();
        site.happen(trouble, first);
        await().atMost(Form.SOON.multipliedBy(2)).until(() -> !site.owner().equals(owner));
        double owned = secondsSince(from);
        try (ServiceProcess second = starting.join()) {
          double ready = secondsSince(from);
          check(site, second, load, trouble, owned, ready);
          if (trouble == Trouble.FROZEN) {
            String epoch = site.ask("SELECT epoch FROM lease");
            signal("CONT", first);
            await().atMost(Form.SOON).until(() -> !first.isAlive());
            assertEquals(epoch, site.ask("SELECT epoch FROM lease"));
            second.grower().awaitBroker();
            second.grower().container("Third");
          }
          if (trouble == Trouble.CUT_OFF) {
            await().atMost(Form.SOON).until(() -> !first.isAlive());
          }
          if (trouble == Trouble.BROKER_CUT_OFF) {
            assertEquals("broker", site.ask("SELECT reason FROM take_over"));
            await()
                .atMost(Form.SOON)
                .until(() -> site.ask("SELECT count(*) FROM waiting_service").equals("1"));
            assertTrue(first.isAlive());
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
      Site site, ServiceProcess second, Load load, Trouble trouble, double owned, double ready) {
    Grower grower = second.grower();
    assertEquals(1, grower.api().get("/api/containers").size());
    grower.container("Other");
    load.awaitMore(ENOUGH);
    load.finish();
    long sent = load.acknowledged();
    await().atMost(Form.SOON).until(() -> site.readings() >= sent);
    await().atMost(Form.SOON).until(() -> Tally.of(grower).addsUp());
    assertEquals(sent, site.readings());
    long there = site.readings();
    Stored stored = site.influx() == null ? Stored.of(site.ask(Stored.IN_POSTGRES)) : null;
    new Row(
            "%s; the other one serves after %.1f s".formatted(trouble.words, ready),
            Tally.of(grower),
            stored == null ? Math.max(0, sent - there) : load.lost(stored.seconds()),
            stored == null
                ? Math.max(0, there - sent)
                : stored.repeated() + load.madeUp(stored.seconds()),
            owned,
            trouble.goalSeconds)
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
