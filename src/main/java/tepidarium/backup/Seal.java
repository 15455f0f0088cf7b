package tepidarium.backup;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * The checksum at the end of a backup file. It is the comment of the ZIP archive, and covers every
 * byte of the file before it. A ZIP archive alone does not detect every changed byte.
 */
final class Seal {
  private static final String WORDS = "Tepidarium backup. SHA-256 of all bytes before this: ";

  /** The comment of an archive that is not sealed yet. */
  static final String PLACEHOLDER = WORDS + "0".repeat(Checksums.HEX_LENGTH);

  private Seal() {}

  /** Replaces the placeholder at the end of a file by the checksum. */
  static void put(Path file) throws IOException {
    byte[] checksum = checksum(file).getBytes(StandardCharsets.US_ASCII);
    try (RandomAccessFile end = new RandomAccessFile(file.toFile(), "rw")) {
      end.seek(end.length() - checksum.length);
      end.write(checksum);
    }
  }

  /** Reads the checksum at the end of a file; null if the file does not end like a backup. */
  static @Nullable String read(Path file) throws IOException {
    try (RandomAccessFile all = new RandomAccessFile(file.toFile(), "r")) {
      if (all.length() < PLACEHOLDER.length()) {
        return null;
      }
      byte[] comment = new byte[PLACEHOLDER.length()];
      all.seek(all.length() - comment.length);
      all.readFully(comment);
      String text = new String(comment, StandardCharsets.ISO_8859_1);
      return text.startsWith(WORDS) ? text.substring(WORDS.length()) : null;
    }
  }

  /** Calculates the checksum of a file up to its seal. */
  static String checksum(Path file) throws IOException {
    try (InputStream in = new BufferedInputStream(Files.newInputStream(file))) {
      return Checksums.copy(
          in, OutputStream.nullOutputStream(), Files.size(file) - Checksums.HEX_LENGTH);
    }
  }
}
