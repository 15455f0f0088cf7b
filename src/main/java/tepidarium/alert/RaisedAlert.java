package tepidarium.alert;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * One raising of an alert, with its return.
 *
 * @param returnedAt null while the alert is active
 */
public record RaisedAlert(
    ContainerId container, AlertKind kind, Instant at, @Nullable Instant returnedAt) {
  public static RaisedAlert of(Alert alert) {
    return new RaisedAlert(alert.container(), alert.kind(), alert.raisedAt(), alert.returnedAt());
  }
}
