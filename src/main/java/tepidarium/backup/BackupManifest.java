package tepidarium.backup;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.time.Instant;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Describes a backup file. It is the entry {@code manifest.json} of the file.
 *
 * @param format version of the format of backup files
 * @param product version of the program that wrote the file
 * @param createdAt time of the backup by the clock of the machine that wrote it
 * @param parts every other entry of the file, by its name
 */
public record BackupManifest(
    int format, String product, Instant createdAt, Map<String, Part> parts, Contents contents) {
  static final int FORMAT = 1;
  static final String FILE_NAME = "manifest.json";
  static final String SETTINGS = "settings.yaml";

  static final ObjectMapper JSON =
      JsonMapper.builder()
          .addModule(new JavaTimeModule())
          .disable(SerializationFeature.WRITE_DATES_AS_TIMESTAMPS)
          .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .build();

  /**
   * One entry.
   *
   * @param sha256 its checksum, in hexadecimal
   * @param schemaVersion version of its tables; 0 for the settings
   */
  public record Part(long bytes, String sha256, int schemaVersion) {}

  /**
   * The amounts in the backup.
   *
   * @param firstReading time of the oldest reading; null without readings
   * @param lastReading time of the newest reading; null without readings
   */
  public record Contents(
      long containers,
      long sowings,
      long photos,
      long readings,
      @Nullable Instant firstReading,
      @Nullable Instant lastReading) {
    static final Contents NONE = new Contents(0, 0, 0, 0, null, null);
  }

  public BackupManifest {
    // A file of an unknown format may lack any field.
    parts = new TreeMap<>(parts == null ? Map.of() : parts);
    contents = contents == null ? Contents.NONE : contents;
  }

  public boolean contains(BackupPart part) {
    return parts.containsKey(part.fileName());
  }
}
