package tepidarium.web.sensors;

import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.reading.InvalidInput;

/** Reads the id of the container in which a sensor is to be placed. */
final class ContainerName {
  private ContainerName() {}

  /** Returns null for no place; {@link ContainerId#ROOM} for the surroundings. */
  static @Nullable ContainerId read(@Nullable String container) {
    if (container == null) {
      return null;
    }
    return ContainerId.ofText(container)
        .orElseThrow(() -> InvalidInput.notFound("container", container));
  }
}
