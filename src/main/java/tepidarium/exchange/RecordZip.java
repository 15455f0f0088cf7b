package tepidarium.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.EnumMap;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/**
 * Reads and writes the whole record as one zip file: a CSV file for each table. The files may come
 * in any order, and some may be missing. A zip bomb is refused: unpacking stops at 64 MB.
 */
public final class RecordZip {
  /** The largest zip file that is read, in bytes. */
  public static final int MAX_BYTES = 16 << 20;

  private static final int MAX_UNPACKED_BYTES = 64 << 20;
  private static final String SUFFIX = ".csv";
  private static final LocalDateTime NO_TIME = LocalDateTime.of(1980, 1, 1, 0, 0);

  private RecordZip() {}

  /** Writes a zip file. Equal tables give equal bytes. */
  public static void write(Map<Table, String> tables, OutputStream out) throws IOException {
    ZipOutputStream zip = new ZipOutputStream(out);
    for (Map.Entry<Table, String> table : tables.entrySet()) {
      ZipEntry file = new ZipEntry(table.getKey().key() + SUFFIX);
      file.setTimeLocal(NO_TIME);
      zip.putNextEntry(file);
      zip.write(table.getValue().getBytes(StandardCharsets.UTF_8));
      zip.closeEntry();
    }
    zip.finish();
  }

  /**
   * Reads a zip file.
   *
   * @throws InvalidInput if it is not a zip file, holds another file than the tables, holds one
   *     twice or none, or unpacks to more than 64 MB
   */
  public static Map<Table, String> read(InputStream in) throws IOException {
    Map<Table, String> tables = new EnumMap<>(Table.class);
    int left = MAX_UNPACKED_BYTES;
    try (ZipInputStream zip = new ZipInputStream(in, StandardCharsets.UTF_8)) {
      for (ZipEntry file = zip.getNextEntry(); file != null; file = zip.getNextEntry()) {
        Table table = table(file.getName());
        byte[] content = zip.readNBytes(left + 1);
        left -= content.length;
        if (left < 0) {
          throw refusal("the zip file unpacks to more than the 64 MB that are accepted", null);
        }
        if (tables.put(table, text(file.getName(), content)) != null) {
          throw refusal("the zip file holds " + file.getName() + " twice", null);
        }
      }
    } catch (ZipException | IllegalArgumentException e) {
      throw e instanceof InvalidInput refused
          ? refused
          : refusal("the zip file is damaged: " + e.getMessage(), e);
    }
    if (tables.isEmpty()) {
      throw refusal("the file is not a zip file with tables such as lots.csv", null);
    }
    return tables;
  }

  private static Table table(String name) {
    Table table =
        name.endsWith(SUFFIX)
            ? Table.named(name.substring(0, name.length() - SUFFIX.length()))
            : null;
    if (table == null) {
      throw refusal(
          "the zip file holds \"%s\", but its files must be tables: %s, each with %s behind"
              .formatted(shown(name), Table.names(), SUFFIX),
          null);
    }
    return table;
  }

  private static String shown(String name) {
    String plain = name.replaceAll("\\p{Cntrl}", "?");
    return plain.length() > 80 ? plain.substring(0, 80) + "…" : plain;
  }

  private static String text(String name, byte[] content) {
    try {
      return StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(content)).toString();
    } catch (CharacterCodingException e) {
      throw refusal(name + " is not in UTF-8", e);
    }
  }

  private static InvalidInput refusal(String reason, @Nullable Throwable cause) {
    String words = "nothing was imported: " + reason;
    return cause == null ? new InvalidInput(words) : new InvalidInput(words, cause);
  }
}
