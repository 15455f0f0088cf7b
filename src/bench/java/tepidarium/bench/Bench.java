package tepidarium.bench;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Measures everything, or the parts that are named, and prints one table. See {@code run}. */
public final class Bench {
  private interface Part {
    void run(Report report) throws Exception;
  }

  private record Named(String name, Part part) {}

  private final Path folder = Path.of("target", "bench").toAbsolutePath();
  private final List<String> words;
  private final boolean quick;

  private Bench(List<String> words) {
    this.words = words;
    this.quick = words.contains("quick");
  }

  public static void main(String[] arguments) throws IOException {
    Bench bench = new Bench(Arrays.asList(arguments));
    System.exit(bench.run() ? 0 : 1);
  }

  private List<Named> parts() {
    int readings = number("readings", quick ? 24_000 : 96_000);
    List<Integer> sensors = numbers("sensors", List.of(10, 1_000, 10_000));
    int rowsOfImport = 1_000_000 * number("rows", 1);
    List<Integer> rows = numbers("rows", quick ? List.of(1, 3) : List.of(1, 10, 100));
    return List.of(
        new Named("end-to-end", new EndToEnd(folder, readings, quick ? 1 : 3)::run),
        new Named("stores", new Stores(folder, quick ? 100_000 : 400_000)::run),
        new Named("cassandra", new CassandraStore(quick ? 100_000 : 400_000)::run),
        new Named("postgres", new PostgresStore(quick ? 100_000 : 400_000)::run),
        new Named("script", new Script(folder, quick ? 3_000 : 12_000)::run),
        new Named("sensors", new ManySensors(folder, sensors, readings / 2)::run),
        new Named("instances", new Instances(folder, readings)::run),
        new Named("heat", new HeatLoop()::run),
        new Named("latency", new Latency(folder, quick ? 30 : 200)::run),
        new Named("shelf", new ShelfPage(folder, numbers("containers", List.of(300, 3_000)))::run),
        new Named("charts", new ChartsPage(folder)::run),
        new Named("season", new Season(folder)::run),
        new Named("fleet", new FleetYears(quick ? 1 : 20)::run),
        new Named("coverage", new Coverages(quick ? 120 : 3_000)::run),
        new Named("import", new Imports(folder, rowsOfImport)::run),
        new Named("queries", new Queries(folder, rows)::run));
  }

  /** Whether every part could be measured. */
  private boolean run() {
    Report report = new Report();
    List<String> failed = new ArrayList<>();
    List<Named> parts = parts();
    boolean all = parts.stream().noneMatch(part -> words.contains(part.name()));
    for (Named part : parts) {
      if (all || words.contains(part.name())) {
        System.err.println(part.name());
        long start = System.nanoTime();
        try {
          part.part().run(report);
        } catch (Exception | AssertionError e) {
          failed.add(part.name());
          System.err.println("  " + part.name() + " failed: " + e);
        }
        System.err.printf("  %s took %.0f s%n", part.name(), Wait.secondsSince(start));
      }
    }
    System.out.println(
        "Measured on " + LocalDate.now(ZoneOffset.UTC) + (quick ? ", short form" : "") + ".\n");
    System.out.print(report.markdown());
    failed.forEach(name -> System.out.println("\nCould not be measured: " + name + "."));
    return failed.isEmpty();
  }

  private int number(String name, int usual) {
    return numbers(name, List.of(usual)).get(0);
  }

  private List<Integer> numbers(String name, List<Integer> usual) {
    return words.stream()
        .filter(word -> word.startsWith(name + "="))
        .map(word -> word.substring(name.length() + 1))
        .map(list -> Arrays.stream(list.split(",")).map(Integer::valueOf).toList())
        .findFirst()
        .orElse(usual);
  }
}
