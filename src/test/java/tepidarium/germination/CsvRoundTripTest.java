package tepidarium.germination;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.germination.Bench.B;
import static tepidarium.germination.Bench.NOW;
import static tepidarium.germination.Bench.checked;
import static tepidarium.germination.Bench.note;
import static tepidarium.germination.Bench.part;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tepidarium.exchange.Table;

class CsvRoundTripTest {
  private final Bench bench = new Bench();
  private final SeedJournal empty = new SeedJournal(new MemoryGermination(), bench.register);

  private static String refusal(Table table, String csv, SeedJournal journal) {
    return String.valueOf(
        assertThrows(IllegalArgumentException.class, () -> table.read(csv, journal, NOW))
            .getMessage());
  }

  /** A season with every kind of entry, and texts that a spreadsheet might run. */
  private void season() {
    GroupId group = bench.sow(20);
    Entry wrong = bench.check(group, 7, 5, 1, 2);
    bench.journal.correct(wrong.id(), old -> checked(group, 6, 1, 2), "=1+1", note(7));
    GroupId split = part(bench.move(group, 8, B, 4, 1, null));
    bench.move(group, 9, B, null, null, split);
    bench.journal.add(new Act.Survival(group, 1), note(20));
    Note said = new Note(null, null, Bench.day(15), "Ida", "'a, \"b\"\nand ü", NOW);
    List<Culled> dead = List.of(new Culled(1, CullReason.DEAD, true));
    bench.journal.add(new Act.Checked(split, 1, dead, 0, List.of(1.5, 2.0)), said);
    Entry mistake = bench.check(split, 16, 0, 0, 0);
    bench.journal.withdraw(mistake.id(), "not opened", note(16));
    bench
        .journal
        .lots()
        .add(
            new LotDetails(
                "pawpaw",
                "@home",
                7,
                Bench.SOWN,
                Origin.GROUND,
                "-row 3",
                "+4 °C",
                "=HYPERLINK(1)"),
            NOW);
    bench.journal.species().add("Cold one", Map.of(Trait.BASE, new Figure(-5, "-my own")));
  }

  @Test
  void exportedTablesAreImportedUnchanged() {
    season();
    for (Table table : Table.values()) {
      String csv = table.write(bench.journal);
      Table.ImportResult result = table.read(csv, empty, NOW);
      assertEquals(result.rows(), result.added());
      assertEquals(csv, table.write(empty));
      assertEquals(0, table.read("\uFEFF" + csv, empty, NOW).added());
    }
    assertEquals(bench.journal.lots().all(), empty.lots().all());
    assertEquals(bench.journal.species().all(), empty.species().all());
    assertEquals(bench.journal.entries(), empty.entries());
    assertEquals(
        bench.journal.sowings().stream().map(s -> groups(s)).toList(),
        empty.sowings().stream().map(s -> groups(s)).toList());
  }

  private static List<GroupState> groups(Sowing sowing) {
    SowingTimeline timeline = sowing.timeline();
    return timeline == null ? List.of() : List.copyOf(timeline.groups());
  }

  @Test
  void aSpreadsheetFindsNoFormula() {
    season();
    for (Table table : Table.values()) {
      for (String cell : table.write(bench.journal).split("[,\r\n]", -1)) {
        String bare = cell.startsWith("\"") ? cell.substring(1) : cell;
        boolean number = bare.matches("-?[0-9.]+");
        assertTrue(number || bare.isEmpty() || "=+-@\t".indexOf(bare.charAt(0)) < 0, cell);
      }
    }
  }

  @Test
  void oneInvalidLineImportsNothingAndEachErrorIsReported() {
    season();
    Table.SPECIES.read(Table.SPECIES.write(bench.journal), empty, NOW);
    String lots = Table.LOTS.write(bench.journal);
    String wrong = lots.replace(",300,", ",many,").replace(",7,", ",0,");
    String told = refusal(Table.LOTS, wrong, empty);
    assertTrue(told.contains("line 2: seeds must be a whole number, not \"many\""), told);
    assertTrue(told.contains("line 3: seeds must be"), told);
    assertEquals(List.of(), empty.lots().all());
  }

  @Test
  void anInvalidEntryIsReportedWithItsLine() {
    season();
    Table.SPECIES.read(Table.SPECIES.write(bench.journal), empty, NOW);
    Table.LOTS.read(Table.LOTS.write(bench.journal), empty, NOW);
    String entries = Table.ENTRIES.write(bench.journal);
    String told =
        refusal(Table.ENTRIES, entries.replace("1-1 in bag-a: 20", "1-1 in bag-a: 5"), empty);
    assertTrue(told.contains("line 4: it counts 6 newly germinated"), told);
    assertTrue(
        refusal(Table.ENTRIES, entries.replace("bag-b", "attic"), empty)
            .contains("there is no container \"attic\""));
    assertEquals(List.of(), empty.entries());
  }

  @Test
  void anotherGardensLotOfTheSameNumberIsRefused() {
    SeedJournal other = new SeedJournal(new MemoryGermination(), bench.register);
    other.species().add("Pawpaw", Map.of());
    other.lots().add(Bench.lot(10), NOW);
    String told = refusal(Table.LOTS, Table.LOTS.write(bench.journal), other);
    assertTrue(told.contains("line 2: there is already another seed lot 1"), told);
  }

  @Test
  void aHeaderOfAnotherTableIsRefused() {
    assertTrue(refusal(Table.LOTS, "", empty).contains("first line must be lot,species"));
    assertTrue(refusal(Table.LOTS, "lot,colour\n1,red\n", empty).contains("\"colour\""));
    assertTrue(refusal(Table.LOTS, "lot,lot\n1,1\n", empty).contains("twice"));
    assertTrue(refusal(Table.LOTS, "lot,seeds\n1\n", empty).contains("line 2: has 1 cells"));
  }
}
