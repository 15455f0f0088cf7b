package tepidarium.importing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Reading;
import tepidarium.series.ReadingSink;
import tepidarium.series.StoreException;

/**
 * An uploaded file and the import of its readings, which runs on a thread of its own. It can be
 * stopped and continued. Thread-safe.
 */
public final class ImportJob {
  /** The stage of the import. */
  public enum State {
    READY,
    RUNNING,
    STOPPED,
    DONE,
    FAILED
  }

  private static final Logger LOG = LoggerFactory.getLogger(ImportJob.class);

  /** The rows of a preview. */
  private static final int PREVIEW_ROWS = 10;

  /** A preview reads at most this many rows without a value. */
  private static final int PREVIEW_EMPTY_ROWS = 1_000;

  private static final long STOP_WAIT_MS = 10_000;

  /**
   * How far the import is.
   *
   * @param line number of the last line that was read
   * @param problem why it failed; null unless it did
   */
  public record Progress(
      State state,
      int percent,
      long line,
      long stored,
      long repeated,
      long rejected,
      List<String> notes,
      @Nullable String problem) {
    public Progress {
      notes = List.copyOf(notes);
    }
  }

  /** A row as it would be stored: a reading, or the reason why it is rejected. */
  public record Row(long line, @Nullable Reading reading, @Nullable String rejected) {}

  /** What was guessed about the file, and its first rows. */
  public record Preview(List<Guess> guesses, List<Row> rows) {
    public Preview {
      guesses = List.copyOf(guesses);
      rows = List.copyOf(rows);
    }
  }

  private static final Progress NOTHING = new Progress(State.READY, 0, 0, 0, 0, 0, List.of(), null);

  private final String name;
  private final Path path;
  private volatile @Nullable Thread thread;
  private volatile boolean stopping;
  private volatile Progress progress = NOTHING;

  /**
   * Takes an uploaded file.
   *
   * @param name the name of the file on the computer of the person
   * @param path the uploaded file
   */
  ImportJob(String name, Path path) {
    this.name = name;
    this.path = path;
  }

  public String name() {
    return name;
  }

  public Progress progress() {
    return progress;
  }

  /** The file of the rejected rows; it may not exist. */
  public Path rejectedFile() {
    return RejectedRows.fileOf(path);
  }

  private LoggerFile open(
      ImportedFile file, ImportChoices choices, ZoneId zone, Instant latest, ImportTexts texts) {
    try {
      return LoggerFile.open(file, choices.options(name, zone, latest, texts));
    } catch (IOException e) {
      throw new UncheckedIOException("the uploaded file cannot be read", e);
    }
  }

  /**
   * Guesses the form of the file and reads its first rows.
   *
   * @throws InvalidInput if it cannot be imported; the message names the remedy
   */
  public Preview preview(ImportChoices choices, ZoneId zone, Instant latest, ImportTexts texts) {
    LoggerFile opened = open(new ImportedFile(path), choices, zone, latest, texts);
    FirstRows first = new FirstRows();
    try {
      opened.read(first);
    } catch (IOException e) {
      throw new UncheckedIOException("the uploaded file cannot be read", e);
    }
    return new Preview(opened.guesses(), first.rows);
  }

  /** Collects the rows of a preview. */
  private static final class FirstRows implements RowReceiver {
    private final List<Row> rows = new ArrayList<>();
    private int empty;

    @Override
    public boolean reading(long line, Reading reading) {
      return add(new Row(line, reading, null));
    }

    @Override
    public boolean bad(long line, String reason, String text) {
      return add(new Row(line, null, reason));
    }

    private boolean add(Row row) {
      if (rows.size() < PREVIEW_ROWS) {
        rows.add(row);
      }
      return rows.size() < PREVIEW_ROWS;
    }

    @Override
    public boolean empty(long line) {
      empty++;
      return empty < PREVIEW_EMPTY_ROWS;
    }
  }

  /**
   * Starts the import, or continues a stopped one after its last line.
   *
   * @param sink stores the readings, on a thread of the import
   * @throws InvalidInput if it runs already, is done, or a choice is wrong
   */
  synchronized void start(
      ImportChoices choices,
      ZoneId zone,
      Instant latest,
      ImportTexts texts,
      ReadingSink sink,
      Function<Runnable, Thread> threads) {
    Progress before = progress;
    if (before.state() == State.RUNNING || before.state() == State.DONE) {
      boolean isDone = before.state() == State.DONE;
      throw new InvalidInput(
          "the import of " + name + (isDone ? " is done" : " runs already"),
          isDone ? InputRule.DONE.with() : InputRule.RUNNING.with());
    }
    ImportedFile file = new ImportedFile(path);
    LoggerFile opened = open(file, choices, zone, latest, texts);
    stopping = false;
    // After a failure, the last batch may be missing. Readings that are there already do no harm.
    Progress kept = before.state() == State.STOPPED ? before : NOTHING;
    progress = with(kept, State.RUNNING, List.of(), null);
    Thread started = threads.apply(() -> run(file, opened, sink, kept));
    thread = started;
    started.start();
  }

  private static Progress with(
      Progress before, State state, List<String> notes, @Nullable String problem) {
    return new Progress(
        state,
        state == State.DONE ? 100 : before.percent(),
        before.line(),
        before.stored(),
        before.repeated(),
        before.rejected(),
        notes,
        problem);
  }

  /** Ends the import after the current row. */
  public void stop() {
    stopping = true;
  }

  /** Waits up to 10 s for the end of the import. */
  void awaitEnd() {
    Thread running = thread;
    try {
      if (running != null) {
        running.join(STOP_WAIT_MS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void run(ImportedFile file, LoggerFile opened, ReadingSink sink, Progress before) {
    try (RejectedRows rejected = new RejectedRows(path, null, before.line() > 0);
        ImportWriter writer =
            new ImportWriter(
                sink,
                rejected,
                before.line() + 1,
                file,
                () -> stopping,
                now -> report(file, now, rejected, before))) {
      List<String> notes = opened.read(writer);
      writer.finish();
      report(file, writer, rejected, before);
      progress = with(progress, stopping ? State.STOPPED : State.DONE, notes, null);
    } catch (IOException | StoreException | InvalidInput | IllegalStateException e) {
      failed(String.valueOf(e.getMessage()));
    } catch (UncheckedIOException e) {
      failed("the rejected rows cannot be written: " + e);
    } catch (RuntimeException | Error e) {
      LOG.error("the import of {} failed", name, e);
      failed("unexpected error: " + e);
    }
  }

  private void failed(String problem) {
    progress = with(progress, State.FAILED, List.of(), problem);
  }

  private void report(
      ImportedFile file, ImportWriter writer, RejectedRows rejected, Progress before) {
    progress =
        new Progress(
            State.RUNNING,
            file.percentRead(),
            writer.lastLine(),
            before.stored() + writer.stored(),
            before.repeated() + writer.repeated(),
            before.rejected() + rejected.count(),
            List.of(),
            null);
  }

  /** Deletes the files of the import. */
  void delete() throws IOException {
    Files.deleteIfExists(path);
    Files.deleteIfExists(rejectedFile());
  }
}
