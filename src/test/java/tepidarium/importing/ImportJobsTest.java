package tepidarium.importing;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongSupplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
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
  private volatile LongSupplier freeBytes = () -> Long.MAX_VALUE;
  private ImportJobs jobs;

  @BeforeEach
  void open() throws IOException {
    Files.createDirectories(folder.resolve("imports"));
    for (String left : List.of("7.upload", "7.upload-rejected.csv", "my readings.csv")) {
      Files.writeString(folder.resolve("imports").resolve(left), "left");
    }
    Files.createDirectories(folder.resolve("imports/own/folder"));
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
    jobs =
        new ImportJobs(
            folder.resolve("imports"), sink, Imported.BERLIN, clock, path -> freeBytes.getAsLong());
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
    ImportJob job = jobs.job(jobs.upload("jar.csv", -1, rows(rows)));
    if (job == null) {
      throw new AssertionError("the upload is not there");
    }
    return job;
  }

  private ImportJob upload(String text) throws IOException {
    InputStream content = new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
    long id = jobs.upload("jar.csv", text.length(), content);
    return jobs.all().get(id);
  }

  @Test
  void aStoppedImportContinuesAfterItsLastLine() throws IOException {
    ImportJob job = upload(ROWS);
    jobs.start(job, ImportChoices.NONE, ImportTexts.OPTIONS);
    batches.release(1);
    await().until(() -> job.progress().stored() == 10_000);
    job.stop();
    batches.release(100);
    awaitState(job, State.STOPPED);
    long first = job.progress().stored();
    assertTrue(first >= 10_000 && first < ROWS * 8 / 9, "" + job.progress());
    assertEquals(stored.size(), first);

    jobs.start(job, ImportChoices.NONE, ImportTexts.OPTIONS);
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
    jobs.start(job, ImportChoices.NONE, ImportTexts.OPTIONS);
    awaitState(job, State.FAILED);
    assertEquals("the disk is full", job.progress().problem());
    storeFails = false;
    jobs.start(job, ImportChoices.NONE, ImportTexts.OPTIONS);
    awaitState(job, State.DONE);
    assertEquals(ROWS - ROWS / 9, stored.size());
  }

  @Test
  void oneImportRunsAtATimeAndIsNotRemoved() throws IOException {
    long id = jobs.upload("a.csv", -1, rows(20_000));
    ImportJob first = jobs.all().get(id);
    ImportJob second = upload(10);
    jobs.start(first, ImportChoices.NONE, ImportTexts.OPTIONS);
    assertThrows(
        InvalidInput.class, () -> jobs.start(second, ImportChoices.NONE, ImportTexts.OPTIONS));
    assertThrows(InvalidInput.class, () -> jobs.remove(id));
    batches.release(100);
    awaitState(first, State.DONE);
    assertThrows(
        InvalidInput.class, () -> jobs.start(first, ImportChoices.NONE, ImportTexts.OPTIONS));
    assertTrue(jobs.remove(id));
    assertFalse(jobs.remove(id));
  }

  private List<String> files() {
    String[] names = folder.resolve("imports").toFile().list();
    return names == null ? List.of() : Stream.of(names).sorted().toList();
  }

  @Test
  void onlyUploadsOfThePreviousRunAreDeleted() {
    assertEquals(List.of("my readings.csv", "own"), files());
  }

  @Test
  void theNumberOfFilesIsLimited() throws IOException {
    int others = files().size();
    for (int i = 0; i < ImportJobs.MAX_FILES; i++) {
      upload(1);
    }
    assertThrows(InvalidInput.class, () -> upload(1));
    assertThrows(InvalidInput.class, () -> jobs.upload(" ", -1, rows(1)));
    assertEquals(others + ImportJobs.MAX_FILES, files().size());
  }

  @Test
  void anUploadInProgressCountsAsAFile() throws IOException {
    for (int i = 1; i < ImportJobs.MAX_FILES; i++) {
      upload(1);
    }
    InputStream slow =
        new FilterInputStream(rows(1)) {
          @Override
          public int read(byte[] into, int from, int length) throws IOException {
            assertThrows(InvalidInput.class, () -> upload(1));
            return super.read(into, from, length);
          }
        };
    jobs.upload("slow.csv", -1, slow);
    assertEquals(ImportJobs.MAX_FILES, jobs.all().size());
    assertThrows(InvalidInput.class, () -> upload(1));
  }

  @Test
  void aRefusedUploadIsReadToItsEnd() throws IOException {
    freeBytes = () -> 600L << 20;
    InputStream content = rows(20_000);
    assertThrows(InvalidInput.class, () -> jobs.upload("a.csv", 200L << 20, content));
    assertEquals(-1, content.read());
    jobs.remove(jobs.upload("a.csv", 1_000, rows(1)));
  }

  @Test
  void theFreeSpaceIsMeasuredAgainDuringAnUpload() {
    AtomicLong free = new AtomicLong(Long.MAX_VALUE);
    freeBytes = () -> free.getAndSet(0);
    int others = files().size();
    InputStream large = new ByteArrayInputStream(new byte[70 << 20]);
    assertThrows(InvalidInput.class, () -> jobs.upload("large.csv", 70 << 20, large));
    assertEquals(others, files().size());
  }

  @Test
  void aPreviewEndsAfterTenRowsOfAnyKind() throws IOException {
    String bad = "2026-03-01 06:00,warm\n".repeat(5_000);
    ImportJob job = upload("time,temperature\n2026-03-01 06:00,30\n" + bad);
    assertEquals(10, jobs.preview(job, ImportChoices.NONE, ImportTexts.OPTIONS).rows().size());

    String empty = "2026-03-01 06:00,\n".repeat(5_000);
    ImportJob second =
        upload("time,temperature\n2026-03-01 06:00,30\n" + empty + "2026-03-02 06:00,31\n");
    assertEquals(1, jobs.preview(second, ImportChoices.NONE, ImportTexts.OPTIONS).rows().size());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "time,temperature\n2026-03-01 06:00,30\n2026-03-01 06:10,warm\n2026-03-01 06:20,hot\n",
        "air temperature=30 1772344800000\nair temperature=200 1772344800000\nair x 1\n"
      })
  void aBadRowCanEndTheReading(String text) throws IOException {
    List<Long> bad = new ArrayList<>();
    LoggerFile.open(
            () -> new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)),
            Imported.DEFAULTS)
        .read(
            new RowReceiver() {
              @Override
              public boolean reading(long line, Reading reading) {
                return true;
              }

              @Override
              public boolean bad(long line, String reason, String row) {
                bad.add(line);
                return false;
              }

              @Override
              public boolean empty(long line) {
                return true;
              }
            });
    assertEquals(1, bad.size(), "" + bad);
  }

  @Test
  void aPreviewLeavesTheProgressOfARunningImport() throws IOException {
    ImportJob job = upload(ROWS);
    jobs.start(job, ImportChoices.NONE, ImportTexts.OPTIONS);
    await().until(batches::hasQueuedThreads);
    jobs.preview(job, ImportChoices.NONE, ImportTexts.OPTIONS);
    batches.release(1);
    await().until(() -> job.progress().stored() > 0);
    assertTrue(job.progress().percent() < 100, "" + job.progress());
  }

  @Test
  void missingChoicesOfColumnsAreGuessed() {
    Map<String, String> columns = new HashMap<>();
    columns.put("3", null);
    columns.put("4", " ");
    columns.put("5", "battery");
    ImportChoices choices = new ImportChoices(null, " ", null, null, null, null, null, columns);
    assertEquals(Map.of("5", "battery"), choices.columns());
    assertNull(choices.zone());
  }
}
