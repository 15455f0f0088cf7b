package tepidarium.germination;

import org.jspecify.annotations.Nullable;

/** An entry that cannot be, given those before it, and why. */
final class ContradictedEntry extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient Entry entry;

  ContradictedEntry(Entry entry, @Nullable String why) {
    super(why);
    this.entry = entry;
  }

  Entry entry() {
    return entry;
  }

  /**
   * In words for the grower.
   *
   * @param cause the entry that was to be added
   */
  Contradiction because(Entry cause) {
    if (entry.id().equals(cause.id())) {
      return new Contradiction("this contradicts the record: " + getMessage());
    }
    return new Contradiction(
        "with this, " + entry.words() + " would be impossible: " + getMessage());
  }
}
