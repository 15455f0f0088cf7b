package tepidarium.alert.notify;

import org.jspecify.annotations.Nullable;
import tepidarium.alert.Alert;

/**
 * An alert with what a notice says besides.
 *
 * @param containerName what the grower calls the container
 * @param degreeHoursLost the heat that cold has cost the seeds since it began, °C·h; null where
 *     that is not the question, or not known now
 */
public record Situation(Alert alert, String containerName, @Nullable Double degreeHoursLost) {
  Notice.About about() {
    return new Notice.About(
        alert.id(), alert.container().value(), alert.kind().key(), alert.active());
  }
}
