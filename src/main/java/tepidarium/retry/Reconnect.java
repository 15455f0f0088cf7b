package tepidarium.retry;

import java.time.Duration;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.series.StoreException;

/**
 * Limits how often connections to a store that fails are tried: after 0.25 s, then at doubled times
 * up to 5 s. Between two attempts, callers fail at once with the words of the last failure.
 * Thread-safe.
 */
public final class Reconnect {
  private static final Logger LOG = LoggerFactory.getLogger(Reconnect.class);
  private static final Backoff BACKOFF = new Backoff(Duration.ofMillis(250), Duration.ofSeconds(5));

  private final String store;
  private final Function<Exception, String> words;
  private final LongSupplier nanos;
  private int failures;
  private long retryAtNanos;
  private String trouble = "";

  /**
   * Prepares the attempts.
   *
   * @param store the store's name in a sentence, such as "the database garden"
   * @param words describes a failure. An {@link IllegalStateException} or {@link
   *     IllegalArgumentException} speaks for itself.
   */
  public Reconnect(String store, Function<Exception, String> words) {
    this(store, words, System::nanoTime);
  }

  Reconnect(String store, Function<Exception, String> words, LongSupplier nanos) {
    this.store = store;
    this.words = words;
    this.nanos = nanos;
  }

  /**
   * Tries to connect.
   *
   * @param attempt opens a connection and prepares it
   * @throws StoreException when it fails, or when it is too early for another attempt
   */
  public synchronized <T> T attempt(Callable<T> attempt) {
    if (failures > 0 && nanos.getAsLong() - retryAtNanos < 0) {
      throw new StoreException(trouble, new IllegalStateException("waiting for the next attempt"));
    }
    try {
      T opened = attempt.call();
      if (failures > 0) {
        LOG.info("{} answers again", store);
      }
      failures = 0;
      trouble = "";
      return opened;
    } catch (Exception e) {
      failures++;
      retryAtNanos = nanos.getAsLong() + BACKOFF.delay(failures).toNanos();
      boolean speaks = e instanceof IllegalStateException || e instanceof IllegalArgumentException;
      String reason = speaks ? String.valueOf(e.getMessage()) : words.apply(e);
      if (!reason.equals(trouble)) {
        LOG.warn("{}; trying again", reason);
      }
      trouble = reason;
      throw new StoreException(reason, e);
    }
  }
}
