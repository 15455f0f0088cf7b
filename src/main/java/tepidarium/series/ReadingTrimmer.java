package tepidarium.series;

import java.time.Instant;
import java.util.Optional;

/** Deletes old raw readings. */
public interface ReadingTrimmer {
  /**
   * The instant of the oldest raw reading, of uncertain time or not.
   *
   * @throws StoreException when the store cannot answer now
   */
  Optional<Instant> oldest();

  /**
   * Removes some readings older than the instant, in one short transaction, so that writing goes on
   * between two calls.
   *
   * @param most how many at the most
   * @return how many were removed; less than {@code most} when none is left
   * @throws StoreException when the store cannot do it now
   */
  int forgetBefore(Instant instant, int most);
}
