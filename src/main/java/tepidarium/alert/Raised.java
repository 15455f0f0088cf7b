package tepidarium.alert;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * That an alert was raised once, and when it returned.
 *
 * @param returnedAt null while it is active
 */
public record Raised(
    ContainerId container, AlertKind kind, Instant at, @Nullable Instant returnedAt) {
  public static Raised of(Alert alert) {
    return new Raised(alert.container(), alert.kind(), alert.raisedAt(), alert.returnedAt());
  }
}
