package tepidarium.alert;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * Selects alerts for a query.
 *
 * @param container null for all containers
 * @param from earliest time raised (inclusive); null for no limit
 * @param to latest time raised (exclusive); null for no limit
 * @param most maximum number, newest first
 */
public record AlertFilter(
    @Nullable ContainerId container, @Nullable Instant from, @Nullable Instant to, int most) {
  public boolean takes(Alert alert) {
    return (container == null || alert.container().equals(container))
        && (from == null || !alert.raisedAt().isBefore(from))
        && (to == null || alert.raisedAt().isBefore(to));
  }
}
