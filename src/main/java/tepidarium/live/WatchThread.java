package tepidarium.live;

import java.time.Duration;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.series.StoreException;

/**
 * One thread with a queue of at most 256 jobs and one periodic job. A caller that adds to a full
 * queue waits. If a job throws an exception, the thread logs it and takes the next job. The
 * periodic job takes at most half of the time, so that a slow one does not keep the queue waiting.
 */
final class WatchThread implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(WatchThread.class);
  private static final int MAX_JOBS = 256;
  private static final Duration ANSWER_LIMIT = Duration.ofSeconds(10);

  private final BlockingQueue<Runnable> jobs = new ArrayBlockingQueue<>(MAX_JOBS);
  private final Duration period;
  private final Runnable periodic;
  private final Runnable last;
  private final Thread thread = new Thread(this::run, "watch");
  private volatile boolean stopping;

  /**
   * Creates the thread; {@link #start} starts it.
   *
   * @param periodic runs once per period
   * @param last runs once at the end, after the jobs that were still in the queue
   */
  WatchThread(Duration period, Runnable periodic, Runnable last) {
    this.period = period;
    this.periodic = periodic;
    this.last = last;
    thread.setDaemon(true);
  }

  void start() {
    thread.start();
  }

  void add(Runnable job) {
    try {
      jobs.put(job);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Runs the question on the thread and returns its answer, or throws its exception. */
  <T> T ask(Supplier<T> question) {
    CompletableFuture<T> answer = new CompletableFuture<>();
    add(
        () -> {
          try {
            answer.complete(question.get());
          } catch (RuntimeException e) {
            answer.completeExceptionally(e);
          }
        });
    try {
      return answer.get(ANSWER_LIMIT.toMillis(), TimeUnit.MILLISECONDS);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(e.getCause());
    } catch (TimeoutException e) {
      throw new IllegalStateException(
          "the watch thread did not answer within " + ANSWER_LIMIT.toSeconds() + " s", e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while waiting for the watch thread", e);
    }
  }

  private void run() {
    long next = System.nanoTime();
    while (!stopping) {
      try {
        Runnable job = jobs.poll(next - System.nanoTime(), TimeUnit.NANOSECONDS);
        if (job != null) {
          job.run();
        }
        long start = System.nanoTime();
        if (start - next >= 0) {
          try {
            periodic.run();
          } finally {
            long end = System.nanoTime();
            next = end + Math.max(period.toNanos(), end - start);
          }
        }
      } catch (InterruptedException e) {
        break;
      } catch (StoreException e) {
        // Health shows it. The next reading or the next period tries again.
        LOG.debug("a store does not answer; continuing", e);
      } catch (RuntimeException | Error e) {
        // A failure for one container must not stop the evaluation of the others.
        LOG.error("the watch thread caught an unexpected exception and continues", e);
      }
    }
    finish();
  }

  private void finish() {
    try {
      for (Runnable job = jobs.poll(); job != null; job = jobs.poll()) {
        job.run();
      }
      last.run();
    } catch (RuntimeException e) {
      LOG.warn(
          "the watch thread could not finish; the next start evaluates the rest: {}", e.toString());
    }
  }

  /** Stops the thread once it has run the jobs in the queue; waits at most 10 s for that. */
  @Override
  public void close() {
    stopping = true;
    thread.interrupt();
    try {
      thread.join(ANSWER_LIMIT.toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
