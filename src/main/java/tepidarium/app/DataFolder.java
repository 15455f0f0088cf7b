package tepidarium.app;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.backup.DurableFile;

/**
 * Locks the data folder, so that only one service uses it at a time, and stores the MQTT client id
 * in it.
 */
final class DataFolder implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(DataFolder.class);

  /**
   * Visible ASCII characters. MQTT brokers must accept ids of 23 characters; most accept longer
   * ones.
   */
  private static final Pattern CLIENT_ID = Pattern.compile("[!-~]{1,64}");

  private final Path path;
  private final FileChannel channel;

  private DataFolder(Path path, FileChannel channel) {
    this.path = path;
    this.channel = channel;
  }

  /**
   * Creates the folder if it is missing, and locks it.
   *
   * @throws IllegalStateException when it cannot be used; the message names it and the remedy
   */
  static DataFolder open(Path path) {
    try {
      Files.createDirectories(path);
      FileChannel channel =
          FileChannel.open(
              path.resolve("in-use"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      if (lock(channel) == null) {
        channel.close();
        throw new IllegalStateException(
            "another Tepidarium is using the data folder "
                + path.toAbsolutePath()
                + ". Stop it, or choose another folder with --data.");
      }
      return new DataFolder(path, channel);
    } catch (IOException e) {
      throw new IllegalStateException(
          "cannot use the data folder "
              + path.toAbsolutePath()
              + " ("
              + e
              + "). It must be on a local disk, and this user must have the right to write to it."
              + " Choose another folder with --data, or change its rights.",
          e);
    }
  }

  /** Whether a service or command holds the lock of a folder. Changes nothing in it. */
  static boolean isInUse(Path path) {
    Path file = path.resolve("in-use");
    if (!Files.exists(file)) {
      return false;
    }
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      return lock(channel) == null;
    } catch (IOException e) {
      throw new IllegalStateException("cannot use the data folder " + path + ": " + e, e);
    }
  }

  private static @Nullable FileLock lock(FileChannel channel) throws IOException {
    try {
      return channel.tryLock();
    } catch (OverlappingFileLockException e) {
      return null;
    }
  }

  Path resolve(String name) {
    return path.resolve(name);
  }

  Path path() {
    return path;
  }

  /**
   * Returns the MQTT client id. It is unique to this folder and does not change. If its file is
   * empty or damaged, this restores it from the copy in the manifest. Without a copy, it creates a
   * new id.
   *
   * @param copy the client id in the manifest; null if there is none
   */
  String clientId(@Nullable String copy) {
    Path file = path.resolve("client-id");
    try {
      if (Files.exists(file)) {
        String id = Files.readString(file, StandardCharsets.ISO_8859_1).strip();
        if (CLIENT_ID.matcher(id).matches()) {
          return id;
        }
        LOG.warn("{} is damaged or empty; writing it again", file);
      }
      String id = copy != null && CLIENT_ID.matcher(copy).matches() ? copy : newClientId();
      DurableFile.write(file, id.getBytes(StandardCharsets.US_ASCII));
      return id;
    } catch (IOException e) {
      throw new IllegalStateException("cannot read or write " + file + ": " + e, e);
    }
  }

  private static String newClientId() {
    byte[] random = new byte[6];
    new SecureRandom().nextBytes(random);
    return "tepidarium-" + HexFormat.of().formatHex(random);
  }

  @Override
  public void close() {
    try {
      channel.close();
    } catch (IOException e) {
      throw new IllegalStateException("cannot unlock the data folder " + path, e);
    }
  }
}
