package tepidarium.alert.notify;

import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;

/**
 * Something that the service noticed about itself.
 *
 * @param endedAt null while it lasts
 * @param detail what it is, in a sentence without the time
 */
public record Trouble(Kind kind, Instant since, @Nullable Instant endedAt, String detail) {
  /** What the service watches of itself. */
  public enum Kind {
    /** No broker was heard for a time: nothing reaches the service. */
    BROKER(Priority.HIGH),
    /** Messages wait in the broker or in the service, and are not stored. */
    INTAKE(Priority.HIGH),
    /** Little space is left on the disk. */
    DISK(Priority.MEDIUM),
    /** The wall clock jumped against the monotonic one; over as soon as it is noticed. */
    CLOCK(Priority.LOW),
    /** The wall clock is more than a day away from the last instant seen. */
    DATE(Priority.HIGH);

    private final Priority priority;

    Kind(Priority priority) {
      this.priority = priority;
    }

    Priority priority() {
      return priority;
    }

    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  public boolean active() {
    return endedAt == null;
  }

  public Trouble ended(Instant at) {
    return new Trouble(kind, since, at, detail);
  }

  String key() {
    return kind.key() + '-' + since.toEpochMilli();
  }
}
