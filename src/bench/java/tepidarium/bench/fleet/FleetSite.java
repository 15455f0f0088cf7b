package tepidarium.bench.fleet;

import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** A site of the simulation: where its services and its broker are, and what waits to be stored. */
final class FleetSite {
  final int first;
  final int second;

  /** The machine of its broker. */
  int broker;

  /** Readings that the broker holds. */
  double waiting;

  /** Readings/s that are stored now. */
  double stored;

  /** How often the site lost its owner. */
  int loss;

  /** The machine that works, or did last. */
  private int last;

  private boolean owned = true;
  private double since;
  private @Nullable LossCause cause;

  FleetSite(int first, int second, int broker) {
    this.first = first;
    this.second = second;
    this.broker = broker;
    last = first;
  }

  boolean isOwned() {
    return owned;
  }

  boolean isOwnedBy(int machine) {
    return owned && last == machine;
  }

  int last() {
    return last;
  }

  /** The machine of the service that waits. */
  int other() {
    return last == first ? second : first;
  }

  /** The owner's machine is lost, or the service there has ended. */
  void lose(LossCause why, double now) {
    owned = false;
    cause = why;
    since = now;
    loss++;
  }

  void own(int machine) {
    owned = true;
    last = machine;
  }

  /** When nobody worked any more, s. */
  double since() {
    return since;
  }

  LossCause cause() {
    return Objects.requireNonNull(cause);
  }
}
