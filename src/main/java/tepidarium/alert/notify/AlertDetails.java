package tepidarium.alert.notify;

import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;

/**
 * An alert with the details for its notice.
 *
 * @param containerName the container's name
 * @param degreeHoursLost heat lost to cold since its start, °C·h; null for other kinds or if
 *     unknown
 */
public record AlertDetails(Alert alert, String containerName, @Nullable Double degreeHoursLost) {
  Notice.About about() {
    return new Notice.About(
        alert.id(), alert.container().value(), alert.kind().key(), alert.active());
  }
}
