package tepidarium.germination;

import org.jspecify.annotations.Nullable;
import tepidarium.reading.BrokenRule;

/** Thrown when an entry is impossible after the entries before it. The message is the reason. */
final class ContradictedEntry extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient Entry entry;
  private final transient @Nullable BrokenRule broken;

  ContradictedEntry(Entry entry, @Nullable String reason) {
    this(entry, reason, null);
  }

  ContradictedEntry(Entry entry, @Nullable String reason, @Nullable BrokenRule broken) {
    super(reason);
    this.entry = entry;
    this.broken = broken;
  }

  Entry entry() {
    return entry;
  }

  @Nullable BrokenRule broken() {
    return broken;
  }

  /**
   * The contradiction as a message for the grower.
   *
   * @param cause entry that was to be added
   */
  Contradiction because(Entry cause) {
    if (entry.id().equals(cause.id())) {
      return new Contradiction("this contradicts the record: " + getMessage(), broken);
    }
    return new Contradiction(
        "because of this entry, " + entry.words() + " would be impossible: " + getMessage(),
        broken,
        entry);
  }
}
