package tepidarium.app;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.SecureRandom;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/** The folder of everything that is kept, held by one service at a time. */
final class DataFolder implements AutoCloseable {
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

  /** A name for the MQTT session that stays with this folder and is unlike any other's. */
  String clientId() {
    Path file = path.resolve("client-id");
    try {
      if (Files.exists(file)) {
        return Files.readString(file).strip();
      }
      byte[] random = new byte[6];
      new SecureRandom().nextBytes(random);
      String id = "tepidarium-" + HexFormat.of().formatHex(random);
      Files.writeString(file, id);
      return id;
    } catch (IOException e) {
      throw new IllegalStateException("cannot read or write " + file, e);
    }
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
