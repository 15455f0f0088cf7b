package tepidarium.bench;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import tepidarium.it.Api;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;
import tepidarium.series.sqlite.SqliteReadings;

/**
 * Everything that the pages work out of one season, asked for one after the other: what became of
 * each of 50 sowings in 100 containers, by days and by heat, what each species needs, the report.
 * The seeds germinate by the heat of their container, so that there is something to find.
 */
final class Season {
  private static final int CONTAINERS = 100;
  private static final int SOWINGS = CONTAINERS / 2;
  private static final int SEEDS_IN_EACH = 40;
  static final int DAYS = 42;
  private static final int MINUTES_APART = 5;
  private static final int READINGS = DAYS * 24 * 60 / MINUTES_APART;
  private static final int ROUNDS = 6;
  private static final double BASE_C = 15;
  private static final double HEAT_NEEDED = 4_500;
  private static final double SPREAD = 0.25;
  private static final double EVER = 0.6;
  private static final int SPECIES = 3;

  private static final String FILL =
      """
      WITH RECURSIVE n (i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < ?)
      INSERT INTO reading (sensor_id, at_ms, temperature, humidity, light, battery)
      SELECT ?, ? + i * 300000, ? + abs(i % 288 - 144) * 150, 950000, 0, 39000 FROM n
      """;

  private final Path folder;

  Season(Path folder) {
    this.folder = folder;
  }

  void run(Report report) throws SQLException {
    Site site = Site.fresh(folder.resolve("season"));
    Instant end = Instant.now().truncatedTo(ChronoUnit.HOURS);
    Instant start = end.minus(Duration.ofDays(DAYS));
    site.plant(CONTAINERS, 1);
    fill(site, CONTAINERS, start);
    int port = Ports.free();
    List<String> species;
    try (ServiceProcess service = site.start(port, Site.EMBEDDED, Site.SMALL, Map.of())) {
      species = new Book(new Api(service.grower().api().base()), start).write();
    }
    try (ServiceProcess service = site.start(port, Site.EMBEDDED, Site.SMALL, Map.of())) {
      Api api = new Api(service.grower().api().base());
      double first = round(api, species);
      List<Double> later = new ArrayList<>();
      for (int i = 0; i < ROUNDS; i++) {
        later.add(round(api, species));
      }
      report.figure(
          "a season: " + SOWINGS + " sowings, " + CONTAINERS + " containers, asked for in a row",
          "under 1 s",
          "first after a start "
              + Report.figure(first)
              + " s, then median "
              + Report.figure(Stores.median(later))
              + " s");
    }
    Site.remove(site.data());
  }

  /** The seconds that all questions take together. */
  private static double round(Api api, List<String> species) {
    double sum = 0;
    sum += ask(api, "each sowing by days", sowings("germination"));
    sum += ask(api, "each sowing by heat", sowings("heat-course"));
    sum +=
        ask(
            api,
            "what each species needs",
            species.stream().map(id -> "/api/species/" + id + "/thermal-time").toList());
    return sum + ask(api, "the report", List.of("/api/seasons/report"));
  }

  private static List<String> sowings(String question) {
    return IntStream.rangeClosed(1, SOWINGS)
        .mapToObj(number -> "/api/sowings/" + number + '/' + question)
        .toList();
  }

  private static double ask(Api api, String what, List<String> paths) {
    long start = System.nanoTime();
    for (String path : paths) {
      int status = api.call("GET", path, null).status();
      if (status != 200) {
        throw new IllegalStateException(path + ": " + status);
      }
    }
    double seconds = Wait.secondsSince(start);
    System.err.printf("  %s: %.0f ms%n", what, 1000 * seconds);
    return seconds;
  }

  /** The least temperature of a container's day, °C; it rises by 2.16 °C and falls again. */
  private static double lowC(int container) {
    return 24 + 8.0 * container / CONTAINERS;
  }

  /** Six weeks of readings of so many sensors, one reading each five minutes. */
  static void fill(Site site, int sensors, Instant start) throws SQLException {
    Path path = site.data().resolve("readings.db");
    SqliteReadings.open(path).close();
    try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + path);
        Statement statement = file.createStatement();
        PreparedStatement name = file.prepareStatement("INSERT INTO sensor VALUES (?, ?)");
        PreparedStatement rows = file.prepareStatement(FILL)) {
      statement.execute("PRAGMA synchronous = OFF");
      for (int sensor = 0; sensor < sensors; sensor++) {
        name.setInt(1, sensor + 1);
        name.setString(2, Load.sensor(sensor).name());
        name.executeUpdate();
        rows.setInt(1, READINGS - 1);
        rows.setInt(2, sensor + 1);
        rows.setLong(3, start.toEpochMilli());
        rows.setLong(4, Math.round(lowC(sensor) * 1e4));
        rows.executeUpdate();
      }
    }
  }

  /** Writes the record down as a grower does, over the API. */
  private record Book(Api api, Instant start) {
    /** The species that there are now. */
    List<String> write() {
      List<String> species = new ArrayList<>();
      for (int i = 0; i < SPECIES; i++) {
        JsonNode added =
            api.post(
                "/api/species",
                String.format(
                    """
                    {"name": "Invented %d", "figures": {"base": {"value": 15, "source": "invented"}}}
                    """,
                    i));
        species.add(added.get("id").textValue());
        int seeds = CONTAINERS * SEEDS_IN_EACH;
        Instant gathered = start.minus(Duration.ofDays(2));
        api.post(
            "/api/lots",
            String.format(
                """
                {"species": "%s", "seeds": %d, "gatheredAt": "%s", "from": "plant"}
                """,
                species.get(i), seeds, gathered));
      }
      Random random = new Random(17);
      for (int i = 0; i < SOWINGS; i++) {
        sow(i, random);
      }
      return species;
    }

    private void sow(int i, Random random) {
      api.post(
          "/api/sowings",
          String.format(
              """
              {"lot": %d, "at": "%s", "groups": [
                {"container": "%s", "seeds": %d}, {"container": "%s", "seeds": %d}]}
              """,
              1 + i % SPECIES,
              start.plus(Duration.ofHours(1)),
              Site.container(i).value(),
              SEEDS_IN_EACH,
              Site.container(SOWINGS + i).value(),
              SEEDS_IN_EACH));
      count(i, i + 1, 1, random);
      count(SOWINGS + i, i + 1, 2, random);
    }

    private void count(int container, int sowing, int group, Random random) {
      double perHour = lowC(container) + 1.08 - BASE_C;
      int[] found = new int[DAYS / 7];
      for (int seed = 0; seed < SEEDS_IN_EACH; seed++) {
        double hours = HEAT_NEEDED * Math.exp(SPREAD * random.nextGaussian()) / perHour;
        int check = (int) (hours / (7 * 24));
        if (random.nextDouble() < EVER && check < found.length) {
          found[check]++;
        }
      }
      for (int week = 1; week <= found.length; week++) {
        Instant at = start.plus(Duration.ofDays(7L * week).minusHours(1));
        api.post(
            "/api/groups/" + sowing + '-' + group + "/checks",
            String.format("{\"at\": \"%s\", \"germinated\": %d}", at, found[week - 1]));
      }
    }
  }
}
