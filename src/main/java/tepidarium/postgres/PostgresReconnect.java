package tepidarium.postgres;

import java.sql.SQLException;
import java.time.Duration;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.retry.Backoff;
import tepidarium.series.StoreException;

/**
 * Limits how often connections to a database that fails are tried. Between two attempts, callers
 * fail at once with the words of the last failure. Thread-safe.
 */
public final class PostgresReconnect {
  private static final Logger LOG = LoggerFactory.getLogger(PostgresReconnect.class);
  private static final Backoff BACKOFF = new Backoff(Duration.ofMillis(250), Duration.ofSeconds(5));

  private final PostgresAddress address;
  private int failures;
  private long retryAtNanos;
  private String trouble = "";

  /** Opens a connection and prepares it. */
  public interface Attempt<T> {
    T run() throws SQLException;
  }

  public PostgresReconnect(PostgresAddress address) {
    this.address = address;
  }

  /**
   * Tries to connect.
   *
   * @throws StoreException when it fails, or when it is too early for another attempt
   */
  public synchronized <T> T attempt(Attempt<T> attempt) {
    if (failures > 0 && System.nanoTime() - retryAtNanos < 0) {
      throw new StoreException(trouble, new IllegalStateException("waiting for the next attempt"));
    }
    try {
      T opened = attempt.run();
      if (failures > 0) {
        LOG.info("the database {} answers again", address);
      }
      failures = 0;
      trouble = "";
      return opened;
    } catch (SQLException | IllegalStateException e) {
      failures++;
      retryAtNanos = System.nanoTime() + BACKOFF.delay(failures).toNanos();
      String words =
          e instanceof SQLException
              ? PostgresFailure.words(address, e)
              : String.valueOf(e.getMessage());
      if (!words.equals(trouble)) {
        LOG.warn("{}; trying again", words);
      }
      trouble = words;
      throw new StoreException(words, e);
    }
  }
}
