package tepidarium.app;

import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The section {@code backups} of a settings file, before the checks. A missing setting is null and
 * gets its default.
 */
record BackupsSection(@Nullable String folder, @Nullable String every, @Nullable Integer keep) {
  static final BackupsSection DEFAULT = new BackupsSection(null, null, null);

  private static final String NEVER = "never";
  private static final Map<String, Duration> INTERVALS = new LinkedHashMap<>();

  static {
    INTERVALS.put("hour", Duration.ofHours(1));
    INTERVALS.put("day", Duration.ofDays(1));
    INTERVALS.put("week", Duration.ofDays(7));
  }

  Config.BackupSettings checked(ConfigProblems problems, String settings) {
    String interval =
        problems.that(
            "backups.every",
            every == null ? "day" : every,
            word -> word.equals(NEVER) || INTERVALS.containsKey(word),
            "must be hour, day, week or never");
    String checkedFolder = problems.filled("backups.folder", folder);
    Path path = checkedFolder == null ? null : problems.path("backups.folder", checkedFolder);
    int kept = problems.whole("backups.keep", keep == null ? 14 : keep, 1, 1_000);
    return new Config.BackupSettings(path, INTERVALS.get(interval), kept, settings);
  }
}
