package tepidarium.alert;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;

/**
 * One raising of an alert, with its return. An alert that nobody acknowledges can have several.
 *
 * @param returnedAt null while the alert is active
 */
public record RaisedAlert(
    ContainerId container, AlertKind kind, Instant at, @Nullable Instant returnedAt) {
  AlertKey key() {
    return new AlertKey(container, kind);
  }
}
