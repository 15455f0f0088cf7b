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

/** Locks the data folder, so that one service at a time uses it, and keeps the client id in it. */
final class DataFolder implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(DataFolder.class);

  /** Visible ASCII; MQTT brokers must accept 23 characters and mostly accept more. */
  private static final Pattern CLIENT_ID = Pattern.compile("[!-~]{1,64}");

  private final Path path;
  private final FileChannel channel;

  private DataFolder(Path path, FileChannel channel) {
    this.path = path;
    this.channel = channel;
  }

  /**
   * Makes the folder where it is missing and takes hold of it.
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
                + "; stop it, or choose another folder with --data");
      }
      return new DataFolder(path, channel);
    } catch (IOException e) {
      throw new IllegalStateException(
          "cannot use the data folder "
              + path.toAbsolutePath()
              + " ("
              + e
              + "); it must be a folder on a local disk that this user may write to,"
              + " or choose another with --data",
          e);
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
   * The name of the MQTT session, which stays with this folder and is unlike any other's. When its
   * file is empty or damaged, the copy in the manifest is used, or else a new name.
   *
   * @param known the manifest's copy; null where there is none
   */
  String clientId(@Nullable String known) {
    Path file = path.resolve("client-id");
    try {
      if (Files.exists(file)) {
        String id = Files.readString(file, StandardCharsets.ISO_8859_1).strip();
        if (CLIENT_ID.matcher(id).matches()) {
          return id;
        }
        LOG.warn("{} is damaged or empty and is written again", file);
      }
      String id = known != null && CLIENT_ID.matcher(known).matches() ? known : newClientId();
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
      throw new IllegalStateException("cannot let go of the data folder " + path, e);
    }
  }
}
