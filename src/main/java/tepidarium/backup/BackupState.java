package tepidarium.backup;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The results of the automatic backups so far, kept in a file of the data folder.
 *
 * @param doneAt time of the last backup; null if there was none
 * @param failedAt time of the last attempt if it failed; null if it did not fail
 * @param failure reason of that failure; null if it did not fail
 * @param started path of a backup that has started and not ended; null if there is none
 * @param made the backups that this service made, oldest first, also those on absent disks
 */
record BackupState(
    @Nullable Instant doneAt,
    @Nullable Instant failedAt,
    @Nullable String failure,
    @Nullable String started,
    List<Made> made) {
  static final String FILE_NAME = "backup-state.json";

  /** Older entries are forgotten; their files are then never deleted. */
  private static final int MAX_MADE = 2_000;

  private static final Logger LOG = LoggerFactory.getLogger(BackupState.class);

  /**
   * A backup that this service made.
   *
   * @param seal checksum of the file, to recognise it before it is deleted
   */
  record Made(String path, String seal, long bytes) {}

  BackupState {
    made = made == null ? List.of() : List.copyOf(made);
  }

  static final BackupState NONE = new BackupState(null, null, null, null, List.of());

  BackupState started(Path path) {
    return new BackupState(doneAt, failedAt, failure, path.toString(), made);
  }

  BackupState done(Instant now, Made backup) {
    List<Made> all = new ArrayList<>(made);
    all.add(backup);
    return new BackupState(
        now, null, null, null, all.subList(Math.max(0, all.size() - MAX_MADE), all.size()));
  }

  BackupState failed(Instant now, String reason) {
    return new BackupState(doneAt, now, reason, null, made);
  }

  BackupState without(Made backup) {
    return new BackupState(
        doneAt, failedAt, failure, started, made.stream().filter(m -> !m.equals(backup)).toList());
  }

  /** Reads the file. Without a file, or with a damaged one, no backup is known. */
  static BackupState read(Path data) {
    Path file = data.resolve(FILE_NAME);
    try {
      BackupState read =
          Files.exists(file)
              ? BackupManifest.JSON.readValue(Files.readAllBytes(file), BackupState.class)
              : NONE;
      return read == null ? NONE : read;
    } catch (JsonProcessingException e) {
      LOG.warn("{} is damaged and will be written again; older backups are kept for ever", file);
      return NONE;
    } catch (IOException e) {
      LOG.warn("cannot read {}: {}", file, e.toString());
      return NONE;
    }
  }

  /** Writes the file. If that fails, the state is lost with the end of the process. */
  void write(Path data) {
    Path file = data.resolve(FILE_NAME);
    try {
      DurableFile.write(file, BackupManifest.JSON.writeValueAsBytes(this));
    } catch (IOException e) {
      LOG.warn("cannot write {}: {}", file, e.toString());
    }
  }
}
