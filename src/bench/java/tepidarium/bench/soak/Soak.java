package tepidarium.bench.soak;

import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryType;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import tepidarium.app.Config;
import tepidarium.app.Pace;
import tepidarium.faults.MqttSocket;
import tepidarium.ingest.IntakeCounts;
import tepidarium.it.Grower;
import tepidarium.it.MovableClock;
import tepidarium.it.Ports;
import tepidarium.it.RunningService;
import tepidarium.sqlite.SqliteCopy;

/**
 * Runs the whole service in this process for a long simulated time: its clock is moved an hour at a
 * time. Sensors send over MQTT to the embedded broker, die and come back. The mail server does not
 * answer. Backups are made every day, and old readings are deleted. From time to time the service
 * is stopped, its records are copied, and it is started again. Prints a row of figures at equal
 * distances, and collects what breaks the {@link Bounds}.
 */
public final class Soak implements AutoCloseable {
  private static final Duration SOON = Duration.ofMinutes(5);
  private static final Duration POLL = Duration.ofMillis(2);
  private static final Duration SLOW_POLL = Duration.ofMillis(40);
  private static final int HOURS_PER_DAY = 24;
  private static final double BASE_C = 15;

  private final DataFolder data;
  private final Plan plan;
  private final Shelf shelf;
  private final Bounds bounds;
  private final PrintStream out;
  private final MovableClock clock;
  private final LogCount log = new LogCount();

  private final List<State> states = new ArrayList<>();
  private final List<String> broken = new ArrayList<>();
  private final List<String> containers = new ArrayList<>();
  private final Config config;
  private final int port = Ports.free();
  private RunningService service;
  private MqttSocket sensor;
  private long sent;
  private long stored;
  private long repeated;
  private long rejected;
  private long sentInThisRun;
  private long restartMs;

  private Soak(Path data, Plan plan, PrintStream out) {
    this.data = new DataFolder(data);
    this.plan = plan;
    this.out = out;
    this.shelf = new Shelf(plan);
    this.bounds = new Bounds(plan);
    this.clock = new MovableClock(plan.start());
    Map<String, Object> mail =
        Map.of(
            "host", "127.0.0.1",
            "port", 1,
            "tls", "none",
            "from", "shelf@example.org",
            "to", "ida@example.org");
    Map<String, Object> settings = new HashMap<>();
    settings.put("timeZone", plan.zone().getId());
    settings.put("silentAfterMinutes", 90);
    settings.put("keepRawDays", plan.keepRawDays());
    settings.put("notices", Map.of("email", mail, "remindAfterHours", 6, "summaryAt", "07:30"));
    this.config = RunningService.config(data, "embedded", port, settings);
  }

  /**
   * Runs a plan.
   *
   * @param data an empty folder
   * @return what breaks the bounds, in words; empty if nothing does
   */
  public static List<String> run(Path data, Plan plan, PrintStream out) throws IOException {
    try (Soak soak = new Soak(data, plan, out)) {
      out.println(soak.bounds.words() + "\n\n" + State.HEAD);
      soak.start();
      soak.plant();
      soak.runSteps();
      soak.checkEveryDay();
      soak.checkEnd();
      return soak.broken;
    }
  }

  private void start() throws IOException {
    Instant start = plan.start();
    Pace pace =
        new Pace(
            Duration.ofMillis(300),
            Duration.ofMillis(40),
            Duration.ofMillis(150),
            Duration.ofMillis(200),
            () -> Duration.between(start, clock.instant()).toNanos());
    service = RunningService.start(config, clock, pace);
    new Grower(service.api()).awaitBroker();
    sensor = new MqttSocket(port, "shelf", 65_536);
    sensor.awaitConnected();
    sentInThisRun = 0;
  }

  private void plant() {
    Grower grower = new Grower(service.api());
    for (int i = 0; i < Shelf.SENSORS; i++) {
      String id = grower.container("Box " + (i + 1), ",\"base\":15");
      grower.place(Shelf.sensor(i), id, plan.start());
      containers.add(id);
    }
  }

  private void runSteps() throws IOException {
    for (int step = 0; step < plan.steps(); step++) {
      clock.set(plan.start().plus(Plan.STEP.multipliedBy(step + 1L)));
      send(step);
      awaitSettled();
      boolean isRow = plan.falls(step, plan.rows());
      if (isRow || (step + 1) % HOURS_PER_DAY == 0) {
        awaitDayDone();
      }
      if (plan.falls(step, plan.upgrades())) {
        upgrade();
      }
      if (isRow) {
        measure(step);
      }
    }
  }

  /** At noon each message comes twice, and then a broken one. */
  private void send(int step) throws IOException {
    boolean noon = step % HOURS_PER_DAY == HOURS_PER_DAY / 2;
    int messages = 0;
    for (int i = 0; i < Shelf.SENSORS; i++) {
      if (shelf.isAlive(i, step)) {
        byte[] payload = shelf.payload(i, step);
        for (int times = 0; times < (noon ? 2 : 1); times++) {
          publish(i, payload, ++messages);
          sentInThisRun += shelf.readings(i, step);
        }
        if (noon) {
          publish(i, "{\"temperature\":".getBytes(StandardCharsets.UTF_8), ++messages);
          sentInThisRun++;
        }
      }
    }
    sensor.flush();
    for (int i = 0; i < messages; i++) {
      sensor.acknowledged();
    }
  }

  private void publish(int number, byte[] payload, int packet) throws IOException {
    sensor.publish(packet, "tepidarium/" + Shelf.sensor(number), payload, false);
  }

  private void awaitSettled() {
    until(POLL, () -> settled() == sentInThisRun);
  }

  /**
   * Waits for the work of the day, which has no fixed share of the simulated time: a whole round of
   * housekeeping and the deliveries of notices. The round that ends first may have begun before the
   * clock was moved, so a second one must end. The clock is moved by 1 ms to tell them apart.
   */
  private void awaitDayDone() {
    Instant end = clock.instant();
    until(SLOW_POLL, () -> data.isHousekeepingDone(end));
    Instant after = end.plusMillis(1);
    clock.set(after);
    until(SLOW_POLL, () -> data.isHousekeepingDone(after) && data.areDeliveriesDone(after));
  }

  private static void until(Duration poll, Callable<Boolean> done) {
    await().atMost(SOON).pollDelay(Duration.ZERO).pollInterval(poll).until(done);
  }

  private long settled() {
    IntakeCounts counts = service.counts();
    return counts.stored() + counts.repeated() + counts.rejected();
  }

  /** Stops the service, copies the records as before a migration, and starts the service again. */
  private void upgrade() throws IOException {
    long began = System.nanoTime();
    stop();
    Path copy = data.path().resolveSibling("records-before.db");
    Files.deleteIfExists(copy);
    SqliteCopy.copy(data.path().resolve("records.db"), copy);
    SqliteCopy.check(copy);
    start();
    restartMs = Duration.ofNanos(System.nanoTime() - began).toMillis();
  }

  private void stop() {
    addCounts();
    sensor.close();
    service.close();
    service = null;
  }

  private void addCounts() {
    IntakeCounts counts = service.counts();
    sent += sentInThisRun;
    stored += counts.stored();
    repeated += counts.repeated();
    rejected += counts.rejected();
  }

  private void measure(int step) throws IOException {
    IntakeCounts counts = service.counts();
    long waiting = 0;
    long givenUp = 0;
    for (JsonNode notifier : service.api().get("/api/notifiers")) {
      waiting += notifier.path("waiting").longValue();
      givenUp += notifier.path("failed").longValue();
    }
    DataFolder.Rows rows = data.rows();
    State state =
        new State(
            LocalDate.ofInstant(clock.instant().minusSeconds(1), plan.zone()),
            (step + 1) / HOURS_PER_DAY,
            heapAfterCollection(),
            data.sizeOf("readings.db"),
            data.sizeOf("ledger.db"),
            data.sizeOf("records.db"),
            data.sizeOfFolder("broker"),
            data.backups(),
            data.sizeOfFolder("backups"),
            log.lines(),
            sent + sentInThisRun,
            stored + counts.stored(),
            repeated + counts.repeated(),
            rejected + counts.rejected(),
            rows.count(),
            expected(rows, step),
            service.api().get("/api/alerts?state=open").size(),
            waiting,
            givenUp,
            restartMs);
    broken.addAll(bounds.broken(state, states));
    states.add(state);
    out.println(state.row());
  }

  /**
   * Adds what the collector kept. The heap in use would also hold the objects that other threads
   * made since, up to the whole of the young generation on a busy machine.
   */
  private static long heapAfterCollection() {
    System.gc();
    return ManagementFactory.getMemoryPoolMXBeans().stream()
        .filter(pool -> pool.getType() == MemoryType.HEAP)
        .mapToLong(pool -> pool.getCollectionUsage().getUsed())
        .sum();
  }

  /** The readings sent until a step whose time is not before that of the oldest stored one. */
  private long expected(DataFolder.Rows rows, int step) {
    long everyMs = plan.readingEvery().toMillis();
    long beforeOldest = (rows.oldestMs() - plan.start().toEpochMilli()) / everyMs - 1;
    int first = (int) (beforeOldest / plan.readingsPerStep());
    long expected = 0;
    for (int i = 0; i < Shelf.SENSORS; i++) {
      for (int s = first; s <= step; s++) {
        expected += shelf.readings(i, s);
      }
      if (shelf.isAlive(i, first)) {
        expected -= beforeOldest % plan.readingsPerStep();
      }
    }
    return expected;
  }

  /** The steady container has the hours of each local day, also when clocks are changed. */
  private void checkEveryDay() {
    LocalDate from = plan.first();
    while (from.isBefore(plan.end())) {
      LocalDate to = from.plusDays(200).isBefore(plan.end()) ? from.plusDays(200) : plan.end();
      String query =
          "?from="
              + from.atStartOfDay(plan.zone()).toInstant()
              + "&to="
              + to.atStartOfDay(plan.zone()).toInstant();
      JsonNode byDay =
          service.api().get("/api/containers/" + containers.get(0) + "/heat" + query).get("byDay");
      checkDays(byDay, from, to);
      from = to;
    }
  }

  private void checkDays(JsonNode byDay, LocalDate from, LocalDate to) {
    Map<String, Double> found = new HashMap<>();
    byDay.forEach(
        line -> found.put(line.get("day").textValue(), line.get("degreeHours").doubleValue()));
    for (LocalDate day = from; day.isBefore(to); day = day.plusDays(1)) {
      Instant begin = day.atStartOfDay(plan.zone()).toInstant();
      Instant end = day.plusDays(1).atStartOfDay(plan.zone()).toInstant();
      double heat = (Shelf.STEADY_C - BASE_C) * Duration.between(begin, end).toHours();
      double known = found.getOrDefault(day.toString(), 0.0);
      // The first reading comes an interval after the start.
      double tolerance = day.equals(plan.first()) ? heat / HOURS_PER_DAY : heat * 1e-4;
      if (Math.abs(known - heat) > tolerance) {
        broken.add("%s: %.3f °C·h, expected %.3f".formatted(day, known, heat));
      }
    }
  }

  private void checkEnd() {
    if (!log.errors().isEmpty()) {
      broken.add(log.errors());
    }
    JsonNode parts = service.api().get("/api/health").get("parts");
    for (Map.Entry<String, JsonNode> part : parts.properties()) {
      boolean mail = part.getKey().equals("notices");
      if (!mail && !part.getValue().get("status").textValue().equals("up")) {
        broken.add("health of " + part.getKey() + ": " + part.getValue().get("detail"));
      }
    }
    out.println("\nMost warnings in the log:" + log.mostFrequent());
    out.println("Disk: " + parts.get("disk").get("detail").textValue());
  }

  @Override
  public void close() {
    if (service != null) {
      sensor.close();
      service.close();
    }
    log.close();
  }

  /** Runs the three years, or with the word {@code quick} five days, in a temporary folder. */
  public static void main(String[] arguments) throws IOException {
    boolean quick = arguments.length > 0 && arguments[0].equals("quick");
    Path folder = Files.createTempDirectory("tepidarium-soak-");
    long began = System.nanoTime();
    List<String> broken;
    try {
      broken = run(folder.resolve("data"), quick ? Plan.FIVE_DAYS : Plan.THREE_YEARS, System.out);
    } finally {
      DataFolder.delete(folder);
    }
    System.out.printf("%nTook %d s.%n", Duration.ofNanos(System.nanoTime() - began).toSeconds());
    broken.forEach(words -> System.out.println("BROKEN: " + words));
    System.exit(broken.isEmpty() ? 0 : 1);
  }
}
