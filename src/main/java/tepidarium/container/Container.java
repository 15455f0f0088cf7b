package tepidarium.container;

import java.time.Instant;

/** A bag, box, jar or tray that holds seeds. */
public record Container(ContainerId id, ContainerSettings settings, Instant createdAt) {
  public String name() {
    return settings.name();
  }

  public Band band() {
    return settings.band();
  }
}
