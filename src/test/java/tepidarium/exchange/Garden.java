package tepidarium.exchange;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import tepidarium.calibration.CalibrationMethod;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.container.Band;
import tepidarium.container.Calibration;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.container.Opening;
import tepidarium.container.Register;
import tepidarium.germination.Act;
import tepidarium.germination.CullReason;
import tepidarium.germination.Culled;
import tepidarium.germination.Entry;
import tepidarium.germination.Figure;
import tepidarium.germination.GroupId;
import tepidarium.germination.LotDetails;
import tepidarium.germination.MoveRequest;
import tepidarium.germination.Note;
import tepidarium.germination.Origin;
import tepidarium.germination.Portion;
import tepidarium.germination.SeedJournal;
import tepidarium.germination.Trait;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.reading.Span;
import tepidarium.records.ContainerRecords;
import tepidarium.records.Database;
import tepidarium.records.GerminationRecords;
import tepidarium.records.SensorRecords;
import tepidarium.records.sqlite.SqliteRecords;
import tepidarium.sensor.SensorBook;
import tepidarium.sensor.SensorDetails;

/** The record of one installation, in a file of its own. */
final class Garden implements AutoCloseable {
  static final Instant SOWN = Instant.parse("2026-03-01T06:00:00Z");
  static final Instant NOW = SOWN.plus(Duration.ofDays(100));
  static final ContainerId JAR = new ContainerId("jar");
  static final SensorId PROBE = new SensorId("probe-1");

  final Register register;
  final SeedJournal journal;
  final SensorBook sensors;
  final RecordExchange exchange;
  private final Database database;

  Garden(Path folder) {
    database = SqliteRecords.open(folder.resolve("records.db"));
    RecordStores stores =
        new RecordStores(
            new ContainerRecords(database),
            new SensorRecords(database),
            new GerminationRecords(database),
            work ->
                database.transaction(
                    handle -> {
                      work.run();
                      return true;
                    }));
    register = new Register(stores.containers());
    journal = new SeedJournal(stores.germination(), register);
    sensors = new SensorBook(stores.sensors());
    exchange = new RecordExchange(register, journal, sensors, stores);
  }

  /** Something of each table, every kind of entry, and texts that a spreadsheet might run. */
  Garden filled() {
    ContainerId bag =
        register
            .add(
                new ContainerSettings(
                    "=Bag", ContainerKind.BAG, "mat, left", "Shed", 10.5, 34.0, Band.DEFAULT),
                SOWN)
            .id();
    register.add(
        new ContainerSettings("Jar", ContainerKind.JAR, null, 15, null, Band.DEFAULT),
        SOWN.plusMillis(5));
    register.place(PROBE, bag, SOWN, SOWN.plusSeconds(60));
    register.place(PROBE, JAR, SOWN.plusSeconds(60), null);
    register.place(new SensorId("room-1"), ContainerId.ROOM, SOWN, null);
    sensors.change(PROBE, old -> new SensorDetails("Probe \"one\"", "-note", 3.1, SOWN));
    register.calibrate(PROBE, new Calibration(-0.25, 1.5, 0.2));
    register.addCalibrationPoint(point(0.4, 0, CalibrationMethod.ICE_POINT, "@ice"), NOW);
    register.addCalibrationPoint(point(30.1, 30, CalibrationMethod.COMPARISON, null), NOW);
    register.open(new Opening(JAR, new Span(SOWN.plusSeconds(100), SOWN.plusSeconds(160))));
    register.open(new Opening(bag, new Span(SOWN.plusSeconds(10), SOWN.plusSeconds(20))));
    register.decline(new Opening(JAR, new Span(SOWN.plusSeconds(300), SOWN.plusSeconds(360))));
    journal.species().add("Cold one", Map.of(Trait.BASE, new Figure(-5, "-my own")));
    journal.lots().add(lot("cacao", 300, null), NOW);
    journal.lots().add(lot("cold-one", 7, "=77/12"), NOW);
    seeds(bag);
    return this;
  }

  private static CalibrationPoint point(
      double reading, double truth, CalibrationMethod method, String note) {
    Instant at = SOWN.plusSeconds((long) reading);
    return new CalibrationPoint(
        PROBE, Quantity.TEMPERATURE, at, reading, truth, 0.05, method, note);
  }

  private static LotDetails lot(String species, int seeds, String accession) {
    return new LotDetails(
        species,
        "@home",
        seeds,
        SOWN.minus(Duration.ofDays(2)),
        Origin.GROUND,
        "-row 3",
        "+4 °C",
        "=HYPERLINK(1)",
        accession);
  }

  static Note note(int day) {
    return new Note(null, null, SOWN.plus(Duration.ofDays(day)), "Ida", "'a, \"b\"\nand ü", NOW);
  }

  private void seeds(ContainerId bag) {
    long sowing = journal.sow(1, "first", List.of(new Portion(bag, 20)), note(0)).sowing();
    GroupId group = new GroupId(sowing, 1);
    Entry wrong = journal.add(checked(group, 5, 1, 2), note(7));
    journal.correct(wrong.id(), old -> checked(group, 6, 1, 2), "=1+1", note(7));
    Entry move = journal.move(group, new MoveRequest(JAR, 4, 1, null), note(8));
    GroupId split = ((Act.Moved) move.act()).splitInto();
    journal.move(group, new MoveRequest(JAR, null, null, split), note(9));
    journal.add(new Act.Survival(group, 1), note(20));
    List<Culled> dead = List.of(new Culled(1, CullReason.DEAD, true));
    journal.add(new Act.Checked(split, 1, dead, 0, List.of(1.5, 2.0)), note(21));
    Entry mistake = journal.add(checked(split, 0, 0, 0), note(22));
    journal.withdraw(mistake.id(), "not opened", note(22));
    journal.add(new Act.Named(split, "=North"), note(23));
    journal.name(sowing, new Act.Named(null, "Late, \"two\""), note(24));
  }

  private static Act.Checked checked(GroupId group, int germinated, int mouldy, int pottedOn) {
    List<Culled> culled =
        mouldy == 0 ? List.of() : List.of(new Culled(mouldy, CullReason.MOULD, false));
    return new Act.Checked(group, germinated, culled, pottedOn, List.of());
  }

  @Override
  public void close() {
    sensors.close();
    database.close();
  }
}
