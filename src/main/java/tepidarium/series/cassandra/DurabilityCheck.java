package tepidarium.series.cassandra;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Finds the nodes that confirm readings before their disks have them. It asks at most once a
 * minute, because an operator may change the setting, and a node may have been away. Thread-safe.
 */
final class DurabilityCheck {
  private static final Logger LOG = LoggerFactory.getLogger(DurabilityCheck.class);
  private static final Duration EVERY = Duration.ofMinutes(1);

  private final CassandraAddress address;
  private final Clock clock;
  private final Set<String> periodic = new TreeSet<>();
  private @Nullable Instant asked;
  private volatile String warning = "";

  DurabilityCheck(CassandraAddress address, Clock clock) {
    this.address = address;
    this.clock = clock;
  }

  /**
   * Asks the nodes, unless it did so within the last minute.
   *
   * @param syncs gives {@code commitlog_sync} of each node of the cluster, by its name; null if the
   *     node does not answer now: its last answer then stays
   */
  synchronized void check(Map<String, Supplier<@Nullable String>> syncs) {
    Instant now = clock.instant();
    if (asked != null && Duration.between(asked, now).abs().compareTo(EVERY) < 0) {
      return;
    }
    asked = now;
    periodic.retainAll(syncs.keySet());
    syncs.forEach(
        (node, ask) -> {
          String sync = ask.get();
          if ("periodic".equalsIgnoreCase(sync)) {
            periodic.add(node);
          } else if (sync != null) {
            periodic.remove(node);
          }
        });
    String words = words();
    if (!words.equals(warning) && !words.isEmpty()) {
      LOG.warn("{}", words);
    }
    warning = words;
  }

  private String words() {
    return periodic.isEmpty()
        ? ""
        : "the keyspace "
            + address
            + " has nodes that confirm readings up to 10 s before their disks have them: "
            + String.join(", ", periodic)
            + ". A power cut of several nodes loses those. Set commitlog_sync to group or batch"
            + " there";
  }

  /** What the nodes do not keep through a power cut; empty if they keep all or cannot tell. */
  String warning() {
    return warning;
  }
}
