package tepidarium.ingest;

import org.jspecify.annotations.Nullable;

/** Where presses of buttons go. */
@FunctionalInterface
public interface ButtonSink {
  /**
   * Records it, durably when this returns; the same press again changes little.
   *
   * @return null, or why it cannot be, with what to do
   * @throws tepidarium.series.StoreException when the store cannot take it now
   */
  @Nullable String press(ButtonPress press);
}
