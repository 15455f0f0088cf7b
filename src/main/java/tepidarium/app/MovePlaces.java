package tepidarium.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.postgres.PostgresAddress;
import tepidarium.reading.InvalidInput;
import tepidarium.series.cassandra.CassandraAddress;
import tepidarium.series.influx.InfluxAddress;

/**
 * The stores of a move, by the settings.
 *
 * @param from the present installation
 * @param to the new one
 */
record MovePlaces(Config from, Config to) {
  boolean sameFolder() {
    return real(from.data()).equals(real(to.data()));
  }

  private static Path real(Path folder) {
    try {
      return Files.exists(folder) ? folder.toRealPath() : folder.toAbsolutePath().normalize();
    } catch (IOException e) {
      throw new IllegalStateException("cannot use the data folder " + folder + ": " + e, e);
    }
  }

  boolean recordsStay() {
    return recordsPlace(from).equals(recordsPlace(to));
  }

  boolean readingsStay() {
    return readingsPlace(from).equals(readingsPlace(to));
  }

  private static Object recordsPlace(Config config) {
    PostgresAddress postgres = config.keeping().records();
    return postgres == null ? real(config.data()) : database(postgres);
  }

  private static Object readingsPlace(Config config) {
    PostgresAddress postgres = config.keeping().readings();
    CassandraAddress cassandra = config.keeping().cassandra();
    InfluxAddress influx = config.keeping().influx();
    if (cassandra != null) {
      return List.of(cassandra.nodes(), cassandra.keyspace());
    }
    if (postgres != null) {
      return database(postgres);
    }
    return influx == null ? real(config.data()) : List.of(influx.url(), influx.database());
  }

  private static Object database(PostgresAddress address) {
    return List.of(address.servers(), address.database());
  }

  /** Names the place of the records. */
  static String records(Config config) {
    PostgresAddress postgres = config.keeping().records();
    return postgres == null ? file(config, DataPart.RECORDS) : "the database " + postgres;
  }

  /** Names the place of the readings. */
  static String readings(Config config) {
    String server = config.keeping().readingsServer();
    return server == null ? file(config, DataPart.READINGS) : server;
  }

  private static String file(Config config, DataPart part) {
    return config.data().resolve(part.fileName()).toString();
  }

  /**
   * Files that an installation does not have yet, or no longer. They are created without asking.
   */
  static StartOptions missingFiles(Config config) {
    Set<DataPart> missing = EnumSet.noneOf(DataPart.class);
    for (DataPart part : List.of(DataPart.RECORDS, DataPart.READINGS)) {
      if (!Files.exists(config.data().resolve(part.fileName()))) {
        missing.add(part);
      }
    }
    return new StartOptions(missing, false);
  }

  /**
   * Checks what can be checked before anything is opened.
   *
   * @param manifest of the present data folder; null if there is none
   * @throws InvalidInput when the move cannot be made; the message says what to do
   */
  void check(@Nullable Manifest manifest) {
    if ((!from.keeping().recordsElsewhere() && isMissing(DataPart.RECORDS))
        || (from.keeping().readingsServer() == null && isMissing(DataPart.READINGS))
        || !Files.isDirectory(from.data())) {
      throw new InvalidInput(
          "there is no data in the folder "
              + from.data().toAbsolutePath()
              + ". Name the folder of the service with --data");
    }
    if (recordsStay() && readingsStay()) {
      throw new InvalidInput(
          "the settings name the stores that are in use; nothing is to be moved");
    }
    boolean removedRaw =
        from.keeping().rawDays() != null || (manifest != null && manifest.rawReadingsRemoved());
    if (removedRaw && !sameFolder()) {
      throw new InvalidInput(
          "the service deletes old readings (keepRawDays), and only "
              + file(from, DataPart.ROLLUPS)
              + " has their hourly sums. Leave the setting data out of the new settings, so that the"
              + " data folder stays");
    }
    if (!sameFolder() && Files.exists(to.data().resolve(DataPart.ROLLUPS.fileName()))) {
      throw new InvalidInput(
          "the folder "
              + to.data().toAbsolutePath()
              + " has hourly sums of other data. Name an empty or new folder in the new settings");
    }
  }

  private boolean isMissing(DataPart part) {
    return !Files.exists(from.data().resolve(part.fileName()));
  }
}
