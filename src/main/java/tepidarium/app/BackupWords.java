package tepidarium.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tepidarium.backup.BackupFile;
import tepidarium.backup.BackupManifest;
import tepidarium.backup.BackupPart;
import tepidarium.importing.Amount;

/** Describes backups for the command line. */
final class BackupWords {
  private BackupWords() {}

  /** Describes the contents, one line for each part. */
  static List<String> describe(BackupManifest manifest) {
    BackupManifest.Contents contents = manifest.contents();
    List<String> lines = new ArrayList<>();
    lines.add(
        manifest.contains(BackupPart.RECORDS)
            ? "records: %s, %s, %s"
                .formatted(
                    Amount.of(contents.containers(), "container"),
                    Amount.of(contents.sowings(), "sowing"),
                    Amount.of(contents.photos(), "photo"))
            : "records: not included");
    lines.add("readings: " + readings(manifest));
    if (manifest.contains(BackupPart.ROLLUPS)) {
      lines.add("hourly sums, because old raw readings have been removed");
    }
    lines.add("settings, without passwords and other secrets");
    return lines;
  }

  private static String readings(BackupManifest manifest) {
    if (!manifest.contains(BackupPart.READINGS)) {
      return "not included";
    }
    BackupManifest.Contents contents = manifest.contents();
    Instant first = contents.firstReading();
    Instant last = contents.lastReading();
    String number = "%,d".formatted(contents.readings());
    return first == null || last == null ? number : number + " from " + first + " to " + last;
  }

  static String size(BackupFile file) {
    try {
      return size(Files.size(file.path()));
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file.path(), e);
    }
  }

  private static String size(long bytes) {
    return bytes < 1 << 20
        ? String.format(Locale.ROOT, "%.1f KiB", bytes / 1024.0)
        : String.format(Locale.ROOT, "%.1f MiB", bytes / 1024.0 / 1024);
  }
}
