package tepidarium.germination;

import org.jspecify.annotations.Nullable;
import tepidarium.reading.BrokenRule;

/** Thrown when a request contradicts the germination record. The message names the conflict. */
public final class Contradiction extends RuntimeException {
  private static final long serialVersionUID = 1L;
  private final transient @Nullable BrokenRule broken;
  private final transient @Nullable Entry entry;

  public Contradiction(String message) {
    this(message, null);
  }

  /** A contradiction by a rule for which the pages have words. */
  public Contradiction(String message, @Nullable BrokenRule broken) {
    this(message, broken, null);
  }

  /** A contradiction between a new entry and another one. */
  Contradiction(String message, @Nullable BrokenRule broken, @Nullable Entry entry) {
    super(message);
    this.broken = broken;
    this.entry = entry;
  }

  /** The rule that was broken; null where the pages have no words for it. */
  public @Nullable BrokenRule broken() {
    return broken;
  }

  /** Another entry, which the new one would make impossible; null if none. */
  public @Nullable Entry entry() {
    return entry;
  }
}
