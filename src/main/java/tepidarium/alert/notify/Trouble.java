package tepidarium.alert.notify;

import java.time.Instant;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;

/**
 * A trouble of the service itself.
 *
 * @param endedAt null while it lasts
 * @param detail description in one English sentence, without the time
 */
public record Trouble(Kind kind, Instant since, @Nullable Instant endedAt, String detail) {
  /** The kinds of service trouble. */
  public enum Kind {
    /** No connection to a broker: no message reaches the service. */
    BROKER(Priority.HIGH),
    /** Messages wait in the broker or in the service and are not stored. */
    INTAKE(Priority.HIGH),
    /** The disk is nearly full. */
    DISK(Priority.MEDIUM),
    /** The wall clock jumped relative to the monotonic clock; ends as soon as it is detected. */
    CLOCK(Priority.LOW),
    /** The wall clock differs by more than one day from the last stored instant. */
    DATE(Priority.HIGH),
    /** The last automatic backup failed. */
    BACKUP(Priority.MEDIUM);

    private final Priority priority;

    Kind(Priority priority) {
      this.priority = priority;
    }

    static Optional<Kind> ofKey(String key) {
      return Arrays.stream(values()).filter(kind -> kind.key().equals(key)).findFirst();
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
