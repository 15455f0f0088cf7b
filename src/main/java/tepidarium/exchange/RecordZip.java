package tepidarium.exchange;

import java.io.ByteArrayInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.EnumMap;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import tepidarium.reading.BrokenRule;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * Reads and writes the whole record as one zip file: a CSV file for each table. The files may come
 * in any order, and some may be missing. A zip bomb is refused: unpacking stops at 8 MB, because
 * all of it is in memory.
 */
public final class RecordZip {
  /** The largest zip file that is read, in bytes, also unpacked. */
  public static final int MAX_BYTES = 8 << 20;

  /** The record at the end, according to APPNOTE.TXT of the zip format, 4.3.16. */
  private static final int END_SIGNATURE = 0x06054b50;

  private static final int END_BYTES = 22;
  private static final int MAX_COMMENT_BYTES = 65_535;
  private static final String SUFFIX = ".csv";
  private static final String ENDS_EARLY = "the zip file is damaged: it ends too early";
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
   *     twice or none, is damaged, or unpacks to more than 8 MB
   */
  public static Map<Table, String> read(byte[] file) {
    Map<Table, String> tables = new EnumMap<>(Table.class);
    int left = MAX_BYTES;
    try (ZipInputStream zip =
        new ZipInputStream(new ByteArrayInputStream(file), StandardCharsets.UTF_8)) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        Table table = table(entry.getName());
        byte[] content = zip.readNBytes(left + 1);
        left -= content.length;
        if (left < 0) {
          throw refusal(
              "the zip file unpacks to more than the 8 MB that are accepted",
              InputRule.ZIP_TOO_LARGE.with(8));
        }
        if (tables.put(table, text(entry.getName(), content)) != null) {
          throw refusal(
              "the zip file holds " + entry.getName() + " twice",
              InputRule.ZIP_FILE_TWICE.with(entry.getName()));
        }
      }
    } catch (EOFException e) {
      throw refusal(ENDS_EARLY, InputRule.ZIP_DAMAGED.with());
    } catch (ZipException | IllegalArgumentException e) {
      throw e instanceof InvalidInput refused
          ? refused
          : refusal("the zip file is damaged: " + e.getMessage(), InputRule.ZIP_DAMAGED.with());
    } catch (IOException e) {
      throw new UncheckedIOException(e); // It is in memory.
    }
    if (tables.isEmpty()) {
      throw refusal(
          "the file is not a zip file with tables such as lots.csv", InputRule.NO_ZIP.with());
    }
    if (tables.size() != declaredFiles(file)) {
      throw refusal(ENDS_EARLY, InputRule.ZIP_DAMAGED.with());
    }
    return tables;
  }

  /**
   * The number of files in the record at the end of a zip file; -1 if there is none. Without it, a
   * zip file that was cut off between two files looks whole.
   */
  private static int declaredFiles(byte[] file) {
    ByteBuffer bytes = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN);
    int lowest = Math.max(0, file.length - END_BYTES - MAX_COMMENT_BYTES);
    for (int at = file.length - END_BYTES; at >= lowest; at--) {
      if (bytes.getInt(at) == END_SIGNATURE) {
        return Short.toUnsignedInt(bytes.getShort(at + 10));
      }
    }
    return -1;
  }

  private static Table table(String name) {
    Table table =
        name.endsWith(SUFFIX)
            ? Table.named(name.substring(0, name.length() - SUFFIX.length()))
            : null;
    if (table == null) {
      throw refusal(
          "the zip file holds \"%s\", but its files must be tables: %s, each with %s behind"
              .formatted(shown(name), String.join(", ", Table.names()), SUFFIX),
          InputRule.ZIP_OTHER_FILE.with(shown(name), Table.names()));
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
      throw refusal(name + " is not in UTF-8", InputRule.ENCODING.with(name));
    }
  }

  private static InvalidInput refusal(String reason, BrokenRule broken) {
    return new InvalidInput("nothing was imported: " + reason, broken);
  }
}
