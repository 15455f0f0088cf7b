package tepidarium.importing;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;
import tepidarium.series.ReadingSink;
import tepidarium.series.RefusedReading;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;

/**
 * Writes imported readings to the store in batches of 10,000 and counts them. A second thread
 * writes a batch while the caller reads the next one. Not thread-safe.
 */
public final class ImportWriter implements RowReceiver, AutoCloseable {
  /** A batch that the other thread writes. */
  private record Pending(List<Reading> readings, List<Long> lines, Future<WriteResult> result) {}

  private static final int BATCH = 10_000;

  private final ReadingSink sink;
  private final RejectedRows rejected;
  private final long fromLine;
  private final ImportedFile file;
  private final BooleanSupplier stopped;
  private final Consumer<ImportWriter> progress;
  private final ExecutorService writing = Executors.newSingleThreadExecutor();
  private List<Reading> batch = new ArrayList<>(BATCH);
  private List<Long> lines = new ArrayList<>(BATCH);
  private @Nullable Pending pending;
  private final long startNanos = System.nanoTime();
  private long lastLine;
  private long skipped;
  private long stored;
  private long repeated;
  private long empty;

  /**
   * Prepares the writing.
   *
   * @param fromLine rows before this line are neither stored nor rejected
   * @param stopped whether to end after the current row
   * @param progress called after each batch
   */
  public ImportWriter(
      ReadingSink sink,
      RejectedRows rejected,
      long fromLine,
      ImportedFile file,
      BooleanSupplier stopped,
      Consumer<ImportWriter> progress) {
    this.sink = sink;
    this.rejected = rejected;
    this.fromLine = fromLine;
    this.file = file;
    this.stopped = stopped;
    this.progress = progress;
  }

  @Override
  public boolean reading(long line, Reading reading) {
    lastLine = line;
    if (line < fromLine) {
      skipped++;
    } else {
      batch.add(reading);
      lines.add(line);
      if (batch.size() >= BATCH) {
        flush();
      }
    }
    return !stopped.getAsBoolean();
  }

  @Override
  public boolean bad(long line, String reason, String text) {
    lastLine = line;
    if (line >= fromLine) {
      rejected.add(line, reason, text);
    }
    return !stopped.getAsBoolean();
  }

  @Override
  public boolean empty(long line) {
    lastLine = line;
    if (line >= fromLine) {
      empty++;
    }
    return !stopped.getAsBoolean();
  }

  /** Stores the last batch and waits until it is durable. */
  public void finish() {
    flush();
    awaitPending();
  }

  /** Hands the batch to the thread that writes, once that has written the previous one. */
  private void flush() {
    awaitPending();
    if (!batch.isEmpty()) {
      List<Reading> readings = batch;
      List<Long> ofReadings = lines;
      batch = new ArrayList<>(BATCH);
      lines = new ArrayList<>(BATCH);
      pending = new Pending(readings, ofReadings, writing.submit(() -> sink.write(readings)));
    }
  }

  private void awaitPending() {
    Pending before = pending;
    if (before == null) {
      return;
    }
    pending = null;
    WriteResult result = resultOf(before);
    stored += result.stored();
    repeated += result.repeated();
    if (!result.refused().isEmpty()) {
      reject(before, result.refused());
    }
    progress.accept(this);
  }

  /** The number of the last line that was read. */
  public long lastLine() {
    return lastLine;
  }

  /** Number of readings stored so far. */
  public long stored() {
    return stored;
  }

  /** Number of readings that were there already. */
  public long repeated() {
    return repeated;
  }

  private static WriteResult resultOf(Pending batch) {
    try {
      return batch.result().get();
    } catch (ExecutionException e) {
      if (e.getCause() instanceof StoreException store) {
        throw store;
      }
      throw new IllegalStateException(e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while readings were written", e);
    }
  }

  private void reject(Pending written, List<RefusedReading> refused) {
    IdentityHashMap<Reading, Long> lineOf = new IdentityHashMap<>();
    for (int i = 0; i < written.readings().size(); i++) {
      lineOf.put(written.readings().get(i), written.lines().get(i));
    }
    for (RefusedReading one : refused) {
      Reading reading = one.reading();
      String text = reading.sensor() + " " + reading.at() + ' ' + reading.values();
      rejected.add(lineOf.getOrDefault(reading, 0L), one.reason(), text);
    }
  }

  @Override
  public void close() {
    writing.shutdown();
  }

  /** Which command continues a stopped import. */
  public String whereToContinue() {
    return "Stopped after line %d of %s. All readings up to it are stored. To go on, run the same command with --from-line %d."
        .formatted(lastLine, file.name(), lastLine + 1);
  }

  /** What was stored so far, and how fast. */
  public String summary() {
    double seconds = (System.nanoTime() - startNanos) / 1e9;
    return "%s stored, %,d already there%s%s, in %.1f s (%,.0f readings/s)"
        .formatted(
            Amount.of(stored, "reading"),
            repeated,
            skipped > 0 ? ", %,d before --from-line".formatted(skipped) : "",
            empty > 0 ? ", " + Amount.of(empty, "row") + " without a value" : "",
            seconds,
            (stored + repeated + skipped) / seconds);
  }
}
