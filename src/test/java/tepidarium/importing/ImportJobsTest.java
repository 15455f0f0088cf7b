package tepidarium.importing;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.importing.ImportJob.State;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Reading;
import tepidarium.series.ReadingSink;
import tepidarium.series.StoreException;
import tepidarium.series.WriteResult;

/** Imports of uploaded files: stop, continue, failure and limits. */
class ImportJobsTest {
  private static final int ROWS = 35_000;

  @TempDir private Path folder;
  private final Semaphore batches = new Semaphore(0);
  private final Set<Reading> stored = ConcurrentHashMap.newKeySet();
  private volatile boolean storeFails;
  private ImportJobs jobs;

  @BeforeEach
  void open() throws IOException {
    Files.createDirectories(folder.resolve("imports"));
    Files.writeString(folder.resolve("imports").resolve("old.upload"), "left");
    ReadingSink sink =
        batch -> {
          batches.acquireUninterruptibly();
          if (storeFails) {
            throw new StoreException("the disk is full", new IOException());
          }
          int before = stored.size();
          stored.addAll(batch);
          return new WriteResult(stored.size() - before, batch.size() - stored.size() + before);
        };
    Clock clock = Clock.fixed(Imported.NOW, ZoneOffset.UTC);
    jobs = new ImportJobs(folder.resolve("imports"), sink, Imported.BERLIN, clock);
  }

  @AfterEach
  void close() {
    batches.release(100);
    jobs.close();
  }

  private static InputStream rows(int rows) {
    StringBuilder text = new StringBuilder("time,temperature\n");
    for (int i = 0; i < rows; i++) {
      text.append(Imported.NOW.minusSeconds(rows - i)).append(i % 9 == 8 ? ",warm\n" : ",30\n");
    }
    return new ByteArrayInputStream(text.toString().getBytes(StandardCharsets.UTF_8));
  }

  private static void awaitState(ImportJob job, State state) {
    await().until(() -> job.progress().state() == state);
  }

  private ImportJob upload(int rows) throws IOException {
    ImportJob job = jobs.job(jobs.upload("jar.csv", rows(rows)));
    if (job == null) {
      throw new AssertionError("the upload is not there");
    }
    return job;
  }

  @Test
  void aStoppedImportContinuesAfterItsLastLine() throws IOException {
    ImportJob job = upload(ROWS);
    jobs.start(job, ImportChoices.NONE);
    batches.release(1);
    await().until(() -> job.progress().stored() == 10_000);
    job.stop();
    batches.release(100);
    awaitState(job, State.STOPPED);
    long first = job.progress().stored();
    assertTrue(first >= 10_000 && first < ROWS * 8 / 9, "" + job.progress());
    assertEquals(stored.size(), first);

    jobs.start(job, ImportChoices.NONE);
    awaitState(job, State.DONE);
    ImportJob.Progress end = job.progress();
    int good = ROWS - ROWS / 9;
    assertEquals(good, stored.size());
    assertEquals(good, end.stored());
    assertEquals(0, end.repeated(), "rows before the stop were stored again");
    assertEquals(ROWS / 9, end.rejected());
    assertEquals(end.rejected() + 1, Files.readAllLines(job.rejectedFile()).size());
    assertEquals(100, end.percent());
  }

  @Test
  void afterAFailureTheWholeFileIsReadAgain() throws IOException {
    ImportJob job = upload(ROWS);
    batches.release(100);
    storeFails = true;
    jobs.start(job, ImportChoices.NONE);
    awaitState(job, State.FAILED);
    assertEquals("the disk is full", job.progress().problem());
    storeFails = false;
    jobs.start(job, ImportChoices.NONE);
    awaitState(job, State.DONE);
    assertEquals(ROWS - ROWS / 9, stored.size());
  }

  @Test
  void oneImportRunsAtATimeAndIsNotRemoved() throws IOException {
    long id = jobs.upload("a.csv", rows(20_000));
    ImportJob first = jobs.all().get(id);
    ImportJob second = upload(10);
    jobs.start(first, ImportChoices.NONE);
    assertThrows(InvalidInput.class, () -> jobs.start(second, ImportChoices.NONE));
    assertThrows(InvalidInput.class, () -> jobs.remove(id));
    batches.release(100);
    awaitState(first, State.DONE);
    assertThrows(InvalidInput.class, () -> jobs.start(first, ImportChoices.NONE));
    assertTrue(jobs.remove(id));
    assertFalse(jobs.remove(id));
  }

  @Test
  void oldUploadsAreDeletedAndTheNumberOfFilesIsLimited() throws IOException {
    assertFalse(Files.exists(folder.resolve("imports").resolve("old.upload")));
    for (int i = 0; i < ImportJobs.MAX_FILES; i++) {
      upload(1);
    }
    assertThrows(InvalidInput.class, () -> upload(1));
    assertThrows(InvalidInput.class, () -> jobs.upload(" ", rows(1)));
    try (var files = Files.list(folder.resolve("imports"))) {
      assertEquals(ImportJobs.MAX_FILES, files.count());
    }
  }
}
