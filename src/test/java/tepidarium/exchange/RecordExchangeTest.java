package tepidarium.exchange;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.exchange.Garden.NOW;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.container.Band;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.germination.Entry;
import tepidarium.germination.GroupId;
import tepidarium.germination.MoveRequest;
import tepidarium.germination.Portion;
import tepidarium.reading.BrokenRule;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.RefusedTable;

class RecordExchangeTest {
  private Garden garden;
  private Garden other;

  @BeforeEach
  void open(@TempDir Path folder) throws IOException {
    garden = new Garden(Files.createDirectory(folder.resolve("garden"))).filled();
    other = new Garden(Files.createDirectory(folder.resolve("other")));
  }

  @AfterEach
  void close() {
    garden.close();
    other.close();
  }

  private byte[] zip() throws IOException {
    return zipped(garden);
  }

  private static byte[] zipped(Garden garden) throws IOException {
    ByteArrayOutputStream zip = new ByteArrayOutputStream();
    RecordZip.write(garden.exchange.writeAll(), zip);
    return zip.toByteArray();
  }

  private static List<RecordExchange.Taken> take(Garden garden, byte[] zip) throws IOException {
    return garden.exchange.readAll(RecordZip.read(zip), NOW);
  }

  /** Names and contents of files, in an order, as a zip file. */
  private static byte[] zipOf(String... namesAndContents) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      for (int i = 0; i < namesAndContents.length; i += 2) {
        zip.putNextEntry(new ZipEntry(namesAndContents[i]));
        zip.write(namesAndContents[i + 1].getBytes(StandardCharsets.UTF_8));
      }
    }
    return bytes.toByteArray();
  }

  private String refusal(byte[] zip) throws IOException {
    return String.valueOf(thrown(() -> take(other, zip)).getMessage());
  }

  private String refusal(Table table, String csv) throws IOException {
    return String.valueOf(thrown(() -> other.exchange.read(table, csv, NOW)).getMessage());
  }

  private InvalidInput thrown(Executable read) throws IOException {
    byte[] before = zipped(other);
    InvalidInput refused = assertThrows(InvalidInput.class, read);
    assertArrayEquals(before, zipped(other), "nothing may have changed");
    return refused;
  }

  @Test
  void anEmptyInstallationTakesTheWholeRecord() throws IOException {
    List<RecordExchange.Taken> taken = take(other, zip());
    assertArrayEquals(zip(), zipped(other));
    assertEquals(List.of(Table.values()), taken.stream().map(one -> one.table()).toList());
    for (RecordExchange.Taken table : taken) {
      assertTrue(table.rows() > 0, table.toString());
      int there = table.table() == Table.SPECIES ? 3 : 0;
      assertEquals(table.rows() - there, table.added(), table.toString());
    }
    assertTrue(take(other, zip()).stream().allMatch(table -> table.added() == 0));
    assertEquals("Probe \"one\"", other.sensors.details(Garden.PROBE).name());
    assertEquals(
        Garden.JAR, other.register.placeOf(Garden.PROBE, NOW).orElseThrow(), "placed as before");
  }

  @Test
  void theFilesMayComeInAnyOrder() throws IOException {
    List<String> files = new ArrayList<>();
    for (Map.Entry<Table, String> table : garden.exchange.writeAll().entrySet()) {
      files.addAll(0, List.of(table.getKey().key() + ".csv", table.getValue()));
    }
    take(other, zipOf(files.toArray(String[]::new)));
    assertArrayEquals(zip(), zipped(other));
  }

  @Test
  void eachTableCanBeTakenAlone() throws IOException {
    for (Table table : Table.values()) {
      String csv = garden.exchange.write(table);
      other.exchange.read(table, csv, NOW);
      assertEquals(csv, other.exchange.write(table));
      assertEquals(0, other.exchange.read(table, "\uFEFF" + csv, NOW).added());
    }
  }

  @Test
  void listenersHearOfAllContainersOnceAfterTheImport() throws IOException {
    List<Set<ContainerId>> heard = new ArrayList<>();
    other.register.listen(heard::add);
    take(other, zip());
    assertEquals(List.of(Set.of(new ContainerId("bag"), Garden.JAR, ContainerId.ROOM)), heard);
  }

  @Test
  void aSpreadsheetFindsNoFormula() {
    for (Table table : Table.values()) {
      for (String cell : garden.exchange.write(table).split("[,\r\n]", -1)) {
        String bare = cell.startsWith("\"") ? cell.substring(1) : cell;
        boolean number = bare.matches("-?[0-9.]+");
        assertTrue(number || bare.isEmpty() || "=+-@\t".indexOf(bare.charAt(0)) < 0, cell);
      }
    }
  }

  @Test
  void oneBrokenRowOfOneTableRefusesAllTables() throws IOException {
    Map<Table, String> tables = new EnumMap<>(garden.exchange.writeAll());
    tables.computeIfPresent(
        Table.LOTS, (key, csv) -> csv.replace(",300,", ",many,").replace(",7,", ",0,"));
    ByteArrayOutputStream zip = new ByteArrayOutputStream();
    RecordZip.write(tables, zip);
    String words = refusal(zip.toByteArray());
    assertTrue(
        words.startsWith(
            "nothing was imported: lots.csv: line 2: seeds must be a whole number, not \"many\";"
                + " line 3: seeds must be"),
        words);
    assertTrue(other.register.containers().isEmpty());
  }

  @Test
  void aRowThatContradictsOthersIsToldByLine() throws IOException {
    take(
        other,
        zipOf(
            "containers.csv", garden.exchange.write(Table.CONTAINERS),
            "species.csv", garden.exchange.write(Table.SPECIES),
            "lots.csv", garden.exchange.write(Table.LOTS)));
    String entries = garden.exchange.write(Table.ENTRIES);
    String fewer = refusal(Table.ENTRIES, entries.replace("1-1 in bag: 20", "1-1 in bag: 5"));
    assertTrue(fewer.contains("it counts 6 newly germinated"), fewer);
    assertTrue(fewer.startsWith("nothing was imported: line "), fewer);
    String attic = refusal(Table.ENTRIES, entries.replace("in bag:", "in attic:"));
    assertTrue(attic.contains("line 2: there is no container \"attic\""), attic);
  }

  @Test
  void whatIsHereAlreadyMustBeTheSame() throws IOException {
    take(other, zip());
    refused("another container jar", Table.CONTAINERS, "jar,Jar,jar", "jar,Pot,jar");
    refused("another description of sensor probe-1", Table.SENSORS, "Probe", "Robe");
    refused("another calibration of sensor probe-1", Table.CALIBRATIONS, "-0.25", "-0.5");
    refused("another opening of jar from", Table.OPENINGS, ":02:40Z", ":02:41Z");
    refused("another seed lot 1 here", Table.LOTS, ",300,", ",301,");
    refused("with different contents here", Table.ENTRIES, "not opened", "opened");
    refused("probe-1 is already in jar", Table.PLACEMENTS, "06:01:00Z", "06:02:00Z");
    refused("give no gain", Table.CALIBRATION_POINTS, ",30.1,30.0,", ",30.1,31.0,");
  }

  private void refused(String reason, Table table, String old, String changed) throws IOException {
    String csv = garden.exchange.write(table);
    assertTrue(csv.contains(old), csv);
    String words = refusal(table, csv.replace(old, changed));
    assertTrue(words.contains(reason), words);
  }

  @Test
  void invalidCellsOfEachTableAreTold() throws IOException {
    invalid("line 3: kind must be bag, box, jar or tray", Table.CONTAINERS, ",jar,", ",vat,");
    invalid("room", Table.CONTAINERS, "jar,Jar", "room,Jar");
    invalid("createdAt must be an instant", Table.CONTAINERS, "2026-03-01T06:00:00.005Z", "May");
    invalid("base is missing", Table.CONTAINERS, ",15.0,", ",,");
    invalid("until must be later than from", Table.PLACEMENTS, "06:01:00Z", "05:01:00Z");
    invalid("there is no container \"jar\"", Table.PLACEMENTS, "", "");
    invalid("quantity is not known: \"taste\"", Table.CALIBRATION_POINTS, "temperature", "taste");
    invalid("method is not known: \"guess\"", Table.CALIBRATION_POINTS, "comparison", "guess");
    invalid("declined must be yes or empty", Table.OPENINGS, ",yes", ",no");
    invalid("until must not be earlier", Table.OPENINGS, "06:02:40Z", "05:02:40Z");
    invalid("emptyVolts must be between", Table.SENSORS, "3.1", "0.1");
  }

  private void invalid(String reason, Table table, String old, String changed) throws IOException {
    String csv = garden.exchange.write(table);
    assertTrue(csv.contains(old), csv);
    String words = refusal(table, csv.replace(old, changed));
    assertTrue(words.contains(reason) && words.contains("line "), words);
  }

  @Test
  void aFileThatIsNoRecordIsRefused() throws IOException {
    assertTrue(refusal("hello".getBytes(StandardCharsets.UTF_8)).contains("is not a zip file"));
    assertTrue(refusal(zipOf()).contains("is not a zip file with tables"));
    assertTrue(refusal(zipOf("../lots.csv", "lot")).contains("holds \"../lots.csv\""));
    assertTrue(refusal(zipOf("notes.txt", "lot")).contains("holds \"notes.txt\""));
    assertTrue(refusal(zipOf("a\nb.csv", "lot")).contains("holds \"a?b.csv\""));
    byte[] broken = zip();
    broken[60] ^= 0x55;
    assertTrue(refusal(broken).startsWith("nothing was imported: "));
    byte[] latin = zipOf("lots.csv", "lot,name\r\n1,xx\r\n");
    assertTrue(refusal(Table.LOTS, "").contains("first line must be lot,species"));
    assertTrue(refusal(Table.LOTS, "lot,colour\n1,red\n").contains("\"colour\""));
    assertTrue(refusal(Table.LOTS, "lot,lot\n1,1\n").contains("twice"));
    assertTrue(refusal(Table.LOTS, "lot,seeds\n1\n").contains("line 2: has 1 cells"));
    assertTrue(refusal(zipOf("lots.csv", "")).contains("lots.csv: line 1: the first line"));
    assertTrue(refusal(latin).contains("lots.csv: line 2: "));
  }

  @Test
  void eachRefusalHasARuleForThePages() throws IOException {
    assertEquals(InputRule.NO_ZIP, ruleOf("hello".getBytes(StandardCharsets.UTF_8)));
    assertEquals(InputRule.ZIP_OTHER_FILE, ruleOf(zipOf("notes.txt", "lot")));
    assertEquals(InputRule.ZIP_DAMAGED, ruleOf(Arrays.copyOf(zip(), 90)));
    assertEquals(InputRule.NO_HEADER, ruleOf(Table.LOTS, ""));
    assertEquals(InputRule.UNKNOWN_COLUMN, ruleOf(Table.LOTS, "lot,colour\n1,red\n"));
    assertEquals(InputRule.COLUMN_TWICE, ruleOf(Table.LOTS, "lot,lot\n1,1\n"));
    assertEquals(InputRule.CELLS, ruleOf(Table.LOTS, "lot,seeds\n1\n"));
    assertEquals(InputRule.NOT_CSV, ruleOf(Table.LOTS, "lot\n\"1\"2\n"));
    assertEquals(InputRule.TOO_MANY_ROWS, ruleOf(Table.LOTS, "lot\n" + "1\n".repeat(100_001)));
    take(other, zip());
    String lots = garden.exchange.write(Table.LOTS).replace(",300,", ",301,");
    assertEquals(InputRule.DIFFERS, ruleOf(Table.LOTS, lots));
    String placements = garden.exchange.write(Table.PLACEMENTS).replace("06:01:00Z", "06:02:00Z");
    assertEquals(InputRule.OVERLAPS, ruleOf(Table.PLACEMENTS, placements));
  }

  @Test
  void anEntryThatContradictsTheRecordHasTheRuleToo() throws IOException {
    Map<Table, String> tables = new EnumMap<>(garden.exchange.writeAll());
    tables.computeIfPresent(
        Table.ENTRIES, (key, csv) -> csv.replace("1-1 in bag: 20", "1-1 in bag: 5"));
    ByteArrayOutputStream zip = new ByteArrayOutputStream();
    RecordZip.write(tables, zip);
    assertEquals(InputRule.TOO_FEW_SEEDS, ruleOf(zip.toByteArray()));
  }

  private InputRule ruleOf(byte[] zip) throws IOException {
    return ruleOf(thrown(() -> take(other, zip)));
  }

  private InputRule ruleOf(Table table, String csv) throws IOException {
    return ruleOf(thrown(() -> other.exchange.read(table, csv, NOW)));
  }

  /** The rule of the refusal, or of the first line of the table. */
  private static InputRule ruleOf(InvalidInput refused) {
    RefusedTable table = refused.table();
    BrokenRule broken = table == null ? refused.broken() : table.lines().get(0).broken();
    assertNotNull(broken, refused.getMessage());
    return broken.rule();
  }

  @Test
  void aFileInAnotherEncodingIsRefused() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      zip.putNextEntry(new ZipEntry("lots.csv"));
      zip.write(new byte[] {'l', (byte) 0xfc});
    }
    assertTrue(refusal(bytes.toByteArray()).contains("lots.csv is not in UTF-8"));
  }

  /** 9 MB of zeros become a file of 9 kB. */
  @Test
  void aZipBombIsRefused() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      zip.putNextEntry(new ZipEntry("lots.csv"));
      byte[] block = new byte[1 << 20];
      for (int i = 0; i < 9; i++) {
        zip.write(block);
      }
    }
    assertTrue(bytes.size() < 1 << 20, "a small file: " + bytes.size());
    assertTrue(refusal(bytes.toByteArray()).contains("more than the 8 MB"));
  }

  @Test
  void aTableWithTooManyRowsIsRefused() throws IOException {
    String rows = "lot\n" + "a\n".repeat(100_000);
    String most = refusal(zipOf("lots.csv", rows));
    assertTrue(most.endsWith("; and 99980 more"), most);
    String more = refusal(zipOf("lots.csv", rows + "a\n"));
    assertTrue(more.contains("line 100002: has more than the 100000 rows"), more);
  }

  @Test
  void aLongProblemIsShortened() throws IOException {
    String words = refusal(zipOf("lots.csv", "lot,seeds\n1," + "9".repeat(100_000) + "\n"));
    assertTrue(words.length() < 600, () -> words.length() + " characters");
  }

  @Test
  void aFileThatWasCutOffIsDamaged() throws IOException {
    byte[] whole = zip();
    int second = new String(whole, StandardCharsets.ISO_8859_1).indexOf("PK\003\004", 1);
    for (int length : List.of(second - 5, second, second + 9, second + 40, whole.length - 3)) {
      String words = refusal(Arrays.copyOf(whole, length));
      assertTrue(words.startsWith("nothing was imported: the zip file is damaged"), words);
    }
  }

  @Test
  void anEntryThatWasWithdrawnNeedsNoContainer() throws IOException {
    ContainerSettings settings =
        new ContainerSettings("Gone", ContainerKind.BOX, null, 15, null, Band.DEFAULT);
    ContainerId gone = garden.register.add(settings, Garden.SOWN.plusMillis(9)).id();
    Entry sown = garden.journal.sow(1, null, List.of(new Portion(gone, 3)), Garden.note(30));
    Entry kept = garden.journal.sow(1, null, List.of(new Portion(Garden.JAR, 3)), Garden.note(30));
    Entry moved =
        garden.journal.move(
            new GroupId(kept.sowing(), 1),
            new MoveRequest(gone, null, null, null),
            Garden.note(31));
    garden.journal.withdraw(sown.id(), "wrong box", Garden.note(32));
    garden.journal.withdraw(moved.id(), "wrong box", Garden.note(32));
    assertTrue(garden.journal.removeContainer(gone));
    take(other, zip());
    assertArrayEquals(zip(), zipped(other));
  }
}
