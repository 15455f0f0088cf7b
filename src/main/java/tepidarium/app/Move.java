package tepidarium.app;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tepidarium.importing.Amount;
import tepidarium.moving.ReadingMove;
import tepidarium.postgres.PostgresAddress;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.SensorId;
import tepidarium.records.Database;
import tepidarium.records.RecordsCopy;
import tepidarium.records.RowSum;
import tepidarium.records.postgres.PostgresRecords;
import tepidarium.records.postgres.Tenancy;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.series.spool.Spool;
import tepidarium.sqlite.SqliteFile;

/**
 * Moves an installation's data: readings first, then the records. Readings are copied while its
 * service runs too, the records only when it is stopped.
 */
final class Move {
  static final int COMPLETE = 0;
  static final int FAILED = 1;

  /** It must be run again, after the service is stopped. */
  static final int AGAIN = 3;

  private final Config from;
  private final Config to;
  private final MovePlaces places;
  private final Clock clock;
  private final PrintWriter out;

  Move(Config from, Config to, Clock clock, PrintWriter out) {
    this.from = from;
    this.to = to;
    this.places = new MovePlaces(from, to);
    this.clock = clock;
    this.out = out;
  }

  /**
   * Copies and verifies; returns the exit status.
   *
   * @throws InvalidInput when the move cannot be made; the message says what to do
   * @throws IllegalStateException when a store cannot be used
   * @throws tepidarium.series.StoreException when a store does not answer
   */
  int run() throws IOException {
    Manifest manifest = Manifest.read(from.data());
    places.check(manifest);
    boolean running = DataFolder.isInUse(from.data());
    try (RunningParts open = new RunningParts()) {
      StartOptions missing = MovePlaces.missingFiles(from);
      OpenFolder source = running ? null : OpenFolder.open(from, missing, clock, open);
      DataParts sourceParts =
          source == null ? OpenFolder.inUse(from, missing, clock) : source.parts();
      if (running) {
        requireSameVersion();
      } else {
        requireEmptySpool();
      }
      String copy = manifest == null ? null : manifest.clientId();
      String clientId = source == null ? copy : source.clientId();
      OpenFolder target = places.sameFolder() ? source : target(clientId, open);
      DataParts targetParts = target == null ? sourceParts : target.parts();
      Records records = running ? null : records(sourceParts, targetParts, open);
      boolean verified = readings(sourceParts, targetParts, open);
      long rows = records == null || !verified ? 0 : records.copy();
      if (target != null) {
        target.parts().saveManifest(target.clientId());
      }
      return verified ? end(running, rows) : FAILED;
    } finally {
      out.flush();
    }
  }

  private OpenFolder target(@Nullable String clientId, RunningParts open) {
    return OpenFolder.open(to, MovePlaces.missingFiles(to), clock, open, clientId);
  }

  /** A running service of another version has another schema, which would be migrated. */
  private void requireSameVersion() {
    Path file = from.data().resolve(DataPart.READINGS.fileName());
    if (from.keeping().readingsServer() == null
        && SqliteFile.version(file) != DataPart.READINGS.schemaVersion()) {
      throw new IllegalStateException(
          "the running service has another version than this program. Stop it, or use the program"
              + " of the same version");
    }
  }

  private void requireEmptySpool() {
    long waiting = Spool.waiting(from.data().resolve(DataPart.SPOOL.fileName()));
    if (waiting > 0) {
      throw new InvalidInput(
          Amount.of(waiting, "reading")
              + " in "
              + from.data().resolve(DataPart.SPOOL.fileName())
              + " wait for their store. Start the service with the store that they wait for, until"
              + " the page Service shows that none waits. Then stop it and run this command again");
    }
  }

  /**
   * Both databases of the records.
   *
   * @param present number of rows if the target has them already, else null
   */
  private record Records(Database source, Database target, @Nullable Long present) {
    /** Copies the records; returns the number of rows. */
    long copy() {
      return present == null ? RecordsCopy.copy(source, target) : present;
    }
  }

  /**
   * Opens the records of both sides; checks that the new ones are empty or the same. Null if the
   * records stay where they are.
   */
  private @Nullable Records records(DataParts sourceParts, DataParts targetParts, RunningParts open)
      throws IOException {
    // Opened in any case: a database shows by its lease whether another service uses it.
    Database source = open.add(records(from, sourceParts));
    if (places.recordsStay()) {
      return null;
    }
    Database target = open.add(records(to, targetParts));
    Map<String, RowSum> there = RecordsCopy.sums(target);
    if (there.equals(RecordsCopy.sums(source))) {
      return new Records(source, target, RecordsCopy.rows(there));
    }
    List<String> filled = RecordsCopy.different(there, emptySums());
    if (!filled.isEmpty()) {
      throw new InvalidInput(
          MovePlaces.records(to)
              + " has other records already, in "
              + String.join(", ", filled)
              + ". Nothing was changed. Name an empty database in the new settings, or rename the"
              + " file if it is an old one");
    }
    return new Records(source, target, null);
  }

  private static Database records(Config config, DataParts parts) {
    PostgresAddress postgres = config.keeping().records();
    return postgres == null
        ? parts.open(DataPart.RECORDS, SqliteRecords::open)
        : PostgresRecords.open(postgres, Tenancy.alone("move"));
  }

  /** The sums of new records: they have some species from the start. */
  private static Map<String, RowSum> emptySums() throws IOException {
    Path folder = Files.createTempDirectory("tepidarium-move");
    try (Database empty = SqliteRecords.open(folder.resolve(DataPart.RECORDS.fileName()))) {
      return RecordsCopy.sums(empty);
    } finally {
      try (Stream<Path> all = Files.walk(folder)) {
        for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(each);
        }
      }
    }
  }

  /** Copies the readings; returns whether all are verified. */
  private boolean readings(DataParts sourceParts, DataParts targetParts, RunningParts open) {
    if (places.readingsStay()) {
      out.println("The readings stay in " + MovePlaces.readings(from) + '.');
      return true;
    }
    out.println(
        "Readings: from " + MovePlaces.readings(from) + " to " + MovePlaces.readings(to) + '.');
    out.flush();
    Storage source = open.add(Storage.open(from, sourceParts, clock));
    Storage target = open.add(Storage.open(to, targetParts, clock));
    ReadingMove move =
        new ReadingMove(source.source(), target.source(), target.plainSink(), new MoveProgress());
    List<SensorId> foreign = move.foreign();
    // A sensor may be only there if the source has deleted its old readings since.
    if (!foreign.isEmpty() && from.keeping().rawDays() == null) {
      throw new InvalidInput(
          MovePlaces.readings(to)
              + " has readings of other sensors: "
              + foreign.stream().limit(5).map(SensorId::name).collect(Collectors.joining(", "))
              + ". Nothing was changed. Name an empty store in the new settings");
    }
    ReadingMove.Outcome outcome = move.run();
    out.printf(
        "%s verified hour by hour, %,d of them stored now.%n",
        Amount.of(outcome.verified(), "reading"), outcome.stored());
    if (outcome.differingHours() > 0) {
      out.println(
          Amount.of(outcome.differingHours(), "hour")
              + " differently stored, although copied twice (sensor, start of the hour):");
      outcome.differing().forEach(hour -> out.println("  " + hour));
      out.println("The move is not complete. Name an empty store in the new settings.");
    }
    return outcome.differingHours() == 0;
  }

  private int end(boolean running, long rows) {
    if (running) {
      out.println(
          "The service is running, so the move is not complete: readings may have come since, and"
              + " the records were not copied. Stop the service and run the same command again.");
      return AGAIN;
    }
    out.println(
        places.recordsStay()
            ? "The records stay in " + MovePlaces.records(from) + '.'
            : "Records: "
                + Amount.of(rows, "row")
                + " verified, from "
                + MovePlaces.records(from)
                + " to "
                + MovePlaces.records(to)
                + '.');
    if (!places.sameFolder()) {
      out.println(
          "These stay in the folder "
              + from.data()
              + ": messages that the embedded broker has not delivered, backups, and settings.yaml"
              + " (settings that were changed on the page Settings). Hourly sums are calculated"
              + " again.");
    }
    out.println("Nothing was deleted. Do not start the service on the old stores again.");
    out.println("The move is complete. Start the service with " + options() + '.');
    return COMPLETE;
  }

  private String options() {
    Path file = to.sources().path();
    String config = "--config " + (file == null ? "the new settings" : file);
    return to.sources().place("data") == SettingsSources.Place.COMMAND_LINE
        ? config + " --data " + to.data()
        : config;
  }
}
