package tepidarium.ingest;

import org.jspecify.annotations.Nullable;

/** Records presses of buttons. */
@FunctionalInterface
public interface ButtonSink {
  /**
   * Records a press. The press is durable when the method returns. Recording the same press again
   * is harmless.
   *
   * @return null if it was recorded; otherwise the reason and the remedy
   * @throws tepidarium.series.StoreException when the store is unavailable
   */
  @Nullable String press(ButtonPress press);
}
