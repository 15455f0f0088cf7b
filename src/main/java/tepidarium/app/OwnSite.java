package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;
import tepidarium.alert.Priority;
import tepidarium.backup.ScheduledBackups;
import tepidarium.live.Watch;
import tepidarium.records.Database;
import tepidarium.records.TakeOverRecords;
import tepidarium.records.postgres.LeaseState;
import tepidarium.records.postgres.PostgresRecords;
import tepidarium.series.StoreException;
import tepidarium.sites.SiteState;
import tepidarium.thread.DaemonThreads;
import tepidarium.web.system.ServiceInfo;

/**
 * Tells the state of this site from its parts. Waits at most 2 s for a store, then returns the last
 * known state with its time. Thread-safe.
 */
final class OwnSite implements AutoCloseable {
  private static final int MOST_TAKE_OVERS = 20;
  private static final Duration LIMIT = Duration.ofSeconds(2);

  private final Config config;
  private final String machine;
  private final ServiceInfo info;
  private final Sources sources;
  private final Clock clock;
  private final ReadingRate rate;
  private final LastAnswer<SiteState> answer;
  private final ScheduledExecutorService sampling =
      Executors.newSingleThreadScheduledExecutor(DaemonThreads.named("reading-rate"));

  /** The parts that the state is read from. */
  record Sources(Stores stores, ContainerData containers, Watch watch, ScheduledBackups backups) {}

  OwnSite(
      Config config, String machine, ServiceInfo info, Sources sources, Pace pace, Clock clock) {
    this.config = config;
    this.machine = machine;
    this.info = info;
    this.sources = sources;
    this.clock = clock;
    rate = new ReadingRate(pace.nanos());
    answer = new LastAnswer<>("own-site", this::ask, LIMIT);
    long ms = pace.checks().toMillis();
    var unused =
        sampling.scheduleAtFixedRate(
            () -> rate.sample(info.counts().received()), 0, ms, TimeUnit.MILLISECONDS);
  }

  /** The machines that wait, and the take-overs. */
  private record Others(List<SiteState.Waiting> waiting, SiteState.TakeOvers takeOvers) {}

  /**
   * Returns the state, at the latest after 2 s.
   *
   * @throws StoreException if a store has not answered once within that time
   */
  SiteState state() {
    return answer.get(
        last ->
            last.with(
                new SiteState.Down(
                    "state",
                    "a store has not answered for "
                        + LIMIT.toSeconds()
                        + " s; this is the state of "
                        + last.time().truncatedTo(ChronoUnit.SECONDS))));
  }

  private SiteState ask() {
    PostgresRecords shared =
        config.keeping().standby() && sources.stores().records() instanceof PostgresRecords postgres
            ? postgres
            : null;
    Others others = others(shared);
    return new SiteState(
        config.network().name(),
        machine,
        info.version(),
        clock.instant(),
        info.parts().entrySet().stream()
            .filter(part -> !"up".equals(part.getValue().status()))
            .map(part -> new SiteState.Down(part.getKey(), part.getValue().detail()))
            .toList(),
        shared == null ? null : lease(shared.lease()),
        others.waiting(),
        new SiteState.Readings(
            rate.perMinute(),
            info.counts().waiting(),
            sources.containers().newestReading().orElse(null)),
        disk(info.disk()),
        new SiteState.Backup(sources.backups().lastDone(), config.keeping().recordsElsewhere()),
        sources.watch().openAlerts().stream()
            .filter(alert -> alert.priority() == Priority.HIGH)
            .filter(Alert::active)
            .count(),
        others.takeOvers());
  }

  private static SiteState.Lease lease(LeaseState lease) {
    Duration ago = lease.renewedAgo();
    return new SiteState.Lease(lease.epoch(), lease.since(), ago.toMillis() / 1_000.0);
  }

  /** Reads all in one transaction, so that it waits for a slow database only once. */
  private Others others(@Nullable PostgresRecords shared) {
    Database database = sources.stores().records();
    try {
      return database.transaction(
          handle ->
              new Others(
                  shared == null ? List.of() : waiting(shared),
                  takeOvers(new TakeOverRecords(database))));
    } catch (StoreException e) {
      // The part of the records says why.
      return new Others(List.of(), new SiteState.TakeOvers(0, List.of()));
    }
  }

  private static List<SiteState.Waiting> waiting(PostgresRecords shared) {
    return shared.waiting().stream()
        .map(one -> new SiteState.Waiting(one.machine(), one.reachesBroker()))
        .toList();
  }

  private static SiteState.TakeOvers takeOvers(TakeOverRecords records) {
    return new SiteState.TakeOvers(
        records.count(),
        records.newest(MOST_TAKE_OVERS).stream()
            .map(
                one ->
                    new SiteState.TakeOver(
                        one.at(), one.machine(), one.previous(), one.reason().key()))
            .toList());
  }

  private static SiteState.Disk disk(ServiceInfo.Disk disk) {
    @Nullable Double full = disk.secondsUntilFull();
    return new SiteState.Disk(disk.freeBytes(), full == null || full.isInfinite() ? null : full);
  }

  @Override
  public void close() {
    sampling.shutdownNow();
    answer.close();
  }
}
