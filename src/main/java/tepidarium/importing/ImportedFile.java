package tepidarium.importing;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.Channels;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/**
 * A file to import, and how much of it has been read. Each reader of a file needs an object of its
 * own. Only {@link #percentRead} may be called by other threads.
 */
public final class ImportedFile implements Source {
  private final Path path;
  private volatile @Nullable SeekableByteChannel channel;

  /**
   * Checks that the file can be read.
   *
   * @throws InvalidInput if it cannot
   */
  public ImportedFile(Path path) {
    if (!Files.isReadable(path) || Files.isDirectory(path)) {
      throw new InvalidInput("it is not a file that can be read");
    }
    this.path = path;
  }

  public Path path() {
    return path;
  }

  public String name() {
    return path.getFileName().toString();
  }

  @Override
  public InputStream open() throws IOException {
    SeekableByteChannel opened = Files.newByteChannel(path);
    channel = opened;
    return Channels.newInputStream(opened);
  }

  /** How much of the file has been read since it was opened last, in percent. */
  public int percentRead() {
    SeekableByteChannel current = channel;
    try {
      return current == null || !current.isOpen()
          ? 100
          : (int) (current.position() * 100 / Math.max(1, current.size()));
    } catch (IOException e) {
      return 0;
    }
  }
}
