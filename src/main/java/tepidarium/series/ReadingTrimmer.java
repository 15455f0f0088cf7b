package tepidarium.series;

import java.time.Instant;
import java.util.Optional;

/** Deletes raw readings older than the retention limit. */
public interface ReadingTrimmer {
  /**
   * The instant of the oldest raw reading, including those of uncertain time.
   *
   * @throws StoreException when the store cannot answer now
   */
  Optional<Instant> oldest();

  /**
   * Deletes up to {@code limit} readings older than the instant in one short transaction. Call it
   * repeatedly; the writer thread can commit between two calls.
   *
   * <p>A store that keeps each month apart also drops the months that end before the instant. Their
   * readings are not limited and do not count; the store logs the months.
   *
   * @param limit maximum number of readings to delete
   * @return number of deleted readings; less than {@code limit} when none is left
   * @throws StoreException when the store cannot do it now
   */
  int deleteBefore(Instant instant, int limit);
}
