package tepidarium.app;

import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import tepidarium.series.StoreException;
import tepidarium.thread.DaemonThreads;

/**
 * Runs a slow query and waits for its answer up to a limit; after that, it returns the last known
 * answer. At most one query runs at a time, and all callers share it. Thread-safe.
 */
final class LastAnswer<T> implements AutoCloseable {
  private final Supplier<T> question;
  private final Duration limit;
  private final ExecutorService asking;
  private @Nullable CompletableFuture<T> running;
  private volatile @Nullable T last;

  /**
   * Asks nothing yet.
   *
   * @param name of the thread that asks
   */
  LastAnswer(String name, Supplier<T> question, Duration limit) {
    this.question = question;
    this.limit = limit;
    asking = Executors.newSingleThreadExecutor(DaemonThreads.named(name));
  }

  /**
   * Returns a new answer, or after the limit the last one.
   *
   * @param fromLast changes the last answer into the one to return after the limit
   * @throws StoreException if there is no answer yet, or the question failed with it
   */
  T get(UnaryOperator<T> fromLast) {
    try {
      return ask().get(limit.toMillis(), TimeUnit.MILLISECONDS);
    } catch (TimeoutException e) {
      T known = last;
      if (known == null) {
        throw new StoreException("no answer within " + limit.toMillis() / 1_000.0 + " s", e);
      }
      return fromLast.apply(known);
    } catch (ExecutionException e) {
      throw e.getCause() instanceof RuntimeException cause ? cause : new CompletionException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while waiting for an answer", e);
    }
  }

  private synchronized CompletableFuture<T> ask() {
    CompletableFuture<T> current = running;
    if (current == null || current.isDone()) {
      current =
          CompletableFuture.supplyAsync(
              () -> {
                T answer = question.get();
                last = answer;
                return answer;
              },
              asking);
      running = current;
    }
    return current;
  }

  @Override
  public void close() {
    asking.shutdownNow();
  }
}
