package tepidarium.alert;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * Which alerts are meant.
 *
 * @param container null for all
 * @param from the earliest that they were raised, included; null for the first
 * @param to until when they were raised, excluded; null for now
 * @param most how many, the newest first
 */
public record AlertFilter(
    @Nullable ContainerId container, @Nullable Instant from, @Nullable Instant to, int most) {
  public boolean takes(Alert alert) {
    return (container == null || alert.container().equals(container))
        && (from == null || !alert.raisedAt().isBefore(from))
        && (to == null || alert.raisedAt().isBefore(to));
  }
}
