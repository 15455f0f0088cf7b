package tepidarium.sites;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * What a site says of itself, as it is in the API. Every part checks itself, because another
 * version or another program may answer.
 *
 * @param name name of the site; null if it has none
 * @param machine name of the machine that works
 * @param time when this was said
 * @param down the parts that do not work
 * @param lease the lease of the database; null for a service that shares its database with none
 * @param waiting the machines that wait to take over
 * @param highAlerts active alerts of high priority
 */
public record SiteState(
    @Nullable String name,
    String machine,
    String version,
    Instant time,
    List<Down> down,
    @Nullable Lease lease,
    List<Waiting> waiting,
    Readings readings,
    Disk disk,
    Backup backup,
    long highAlerts,
    TakeOvers takeOvers) {
  public SiteState {
    Objects.requireNonNull(machine);
    Objects.requireNonNull(version);
    Objects.requireNonNull(time);
    Objects.requireNonNull(readings);
    Objects.requireNonNull(disk);
    Objects.requireNonNull(backup);
    Objects.requireNonNull(takeOvers);
    down = List.copyOf(down);
    waiting = List.copyOf(waiting);
  }

  /** The same with one more part that does not work. */
  public SiteState with(Down more) {
    List<Down> all = new ArrayList<>(down);
    all.add(more);
    return new SiteState(
        name,
        machine,
        version,
        time,
        all,
        lease,
        waiting,
        readings,
        disk,
        backup,
        highAlerts,
        takeOvers);
  }

  /** A part that does not work, and why. */
  public record Down(String part, String detail) {
    public Down {
      Objects.requireNonNull(part);
      Objects.requireNonNull(detail);
    }
  }

  /**
   * The lease.
   *
   * @param since when this machine took it
   * @param renewedSecondsAgo time since it was renewed, s
   */
  public record Lease(long epoch, Instant since, double renewedSecondsAgo) {
    public Lease {
      Objects.requireNonNull(since);
    }
  }

  /**
   * A machine that waits.
   *
   * @param reachesBroker whether it can connect to the broker's port
   */
  public record Waiting(String machine, boolean reachesBroker) {
    public Waiting {
      Objects.requireNonNull(machine);
    }
  }

  /**
   * The readings.
   *
   * @param perMinute readings received within the last minute
   * @param queue readings that are not stored yet
   * @param newest time of the newest reading; null if there is none
   */
  public record Readings(double perMinute, long queue, @Nullable Instant newest) {}

  /**
   * The disk of the data folder.
   *
   * @param secondsUntilFull null if it is not known or does not get full
   */
  public record Disk(long freeBytes, @Nullable Double secondsUntilFull) {}

  /**
   * The automatic backup of the records.
   *
   * @param last when the last one was made; null if there was none
   * @param elsewhere whether the records are in PostgreSQL, and others make their backup
   */
  public record Backup(@Nullable Instant last, boolean elsewhere) {}

  /**
   * How often another machine took over, and the newest times: at least one if the count is not 0.
   */
  public record TakeOvers(long count, List<TakeOver> newest) {
    public TakeOvers {
      newest = List.copyOf(newest);
      if (count > 0 && newest.isEmpty()) {
        throw new IllegalArgumentException(count + " take-overs without the newest");
      }
    }
  }

  /**
   * One take-over.
   *
   * @param reason {@code ended}, {@code stopped} or {@code broker}
   */
  public record TakeOver(Instant at, String machine, String previous, String reason) {
    public TakeOver {
      Objects.requireNonNull(at);
      Objects.requireNonNull(machine);
      Objects.requireNonNull(previous);
      Objects.requireNonNull(reason);
    }
  }
}
