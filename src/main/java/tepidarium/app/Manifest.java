package tepidarium.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.backup.DurableFile;

/**
 * Lists the parts of a data folder, so that the next start can detect a missing or empty part.
 *
 * @param format version of the manifest's own format
 * @param product version of the program that wrote the folder last
 * @param parts schema version of each part, by file name; 0 for a part without a schema
 * @param clientId copy of the MQTT client id, in case its own file is damaged
 * @param rawReadingsRemoved whether old raw readings have been removed; the hourly sums of their
 *     time are then only in ledger.db and cannot be recalculated
 */
record Manifest(
    int format,
    String product,
    Map<String, Integer> parts,
    @Nullable String clientId,
    boolean rawReadingsRemoved) {
  static final String FILE_NAME = "manifest.json";
  private static final int FORMAT = 1;
  private static final Logger LOG = LoggerFactory.getLogger(Manifest.class);
  private static final ObjectMapper MAPPER =
      JsonMapper.builder().disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES).build();

  Manifest {
    // A damaged file may lack any field.
    product = product == null ? "unknown" : product;
    parts = new TreeMap<>(parts == null ? Map.of() : parts);
    parts.values().removeIf(version -> version == null);
  }

  Manifest(Map<String, Integer> parts, @Nullable String clientId, boolean rawReadingsRemoved) {
    this(FORMAT, ProductVersion.get(), parts, clientId, rawReadingsRemoved);
  }

  /**
   * Reads the manifest of a folder. Returns null if there is none or it is damaged; logs the
   * damage.
   *
   * @throws IllegalStateException when a later version of the program wrote it
   */
  static @Nullable Manifest read(Path folder) {
    Path file = folder.resolve(FILE_NAME);
    try {
      if (!Files.exists(file)) {
        return null;
      }
      Manifest read = MAPPER.readValue(Files.readAllBytes(file), Manifest.class);
      if (read == null || read.format < 1) {
        LOG.warn("{} is damaged and will be written again: it is not a manifest", file);
        return null;
      }
      if (read.format > FORMAT) {
        throw new IllegalStateException(
            file
                + " was written by a later version of Tepidarium ("
                + read.product
                + "). Start that version, or choose another folder with --data.");
      }
      return read;
    } catch (JsonProcessingException e) {
      LOG.warn(
          "{} is damaged and will be written again: {}",
          file,
          String.valueOf(e.getOriginalMessage()).lines().findFirst().orElse("it cannot be read"));
      return null;
    } catch (IOException e) {
      throw new IllegalStateException("cannot read " + file + ": " + e, e);
    }
  }

  /** Writes the manifest, unless it equals the previous one. */
  void write(Path folder, @Nullable Manifest previous) {
    if (equals(previous)) {
      return;
    }
    Path file = folder.resolve(FILE_NAME);
    try {
      String json = MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(this) + "\n";
      DurableFile.write(file, json.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new IllegalStateException("cannot write " + file + ": " + e, e);
    }
  }
}
