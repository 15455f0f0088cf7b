package tepidarium.sqlite;

import java.io.IOException;
import java.io.InputStream;
import java.net.JarURLConnection;
import java.net.URL;
import java.net.URLConnection;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.zip.CRC32;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.sqlite.util.LibraryLoaderUtil;

/**
 * Unpacks the native SQLite library into a folder once and makes the driver load it from there. By
 * default, the driver unpacks a new copy into the system's temporary folder at each start and
 * deletes it only on a clean exit.
 */
public final class NativeLibrary {
  private static final Logger LOG = LoggerFactory.getLogger(NativeLibrary.class);
  private static final String FOLDER_PROPERTY = "org.sqlite.lib.path";

  private NativeLibrary() {}

  /**
   * Unpacks the library into the folder if it is missing there or differs from the driver's. Does
   * nothing if a folder is already configured for the driver. If the folder cannot be used, the
   * driver falls back to the temporary folder. Call it before opening the first connection.
   */
  public static void unpackInto(Path folder) {
    String name = LibraryLoaderUtil.getNativeLibName();
    URL packed =
        NativeLibrary.class.getResource(LibraryLoaderUtil.getNativeLibResourcePath() + '/' + name);
    if (packed == null || System.getProperty(FOLDER_PROPERTY) != null) {
      return;
    }
    try {
      Path file = folder.resolve(name);
      if (!isSame(packed, file)) {
        unpack(packed, file);
      }
      System.setProperty(FOLDER_PROPERTY, folder.toAbsolutePath().toString());
    } catch (IOException e) {
      LOG.warn(
          "cannot unpack the SQLite library into {} ({}); using the temporary folder", folder, e);
    }
  }

  /** Compares the file's checksum with the one that the driver's jar lists for the library. */
  private static boolean isSame(URL packed, Path file) throws IOException {
    URLConnection connection = packed.openConnection();
    if (!Files.exists(file) || !(connection instanceof JarURLConnection jar)) {
      return false;
    }
    CRC32 checksum = new CRC32();
    checksum.update(Files.readAllBytes(file));
    return checksum.getValue() == jar.getJarEntry().getCrc();
  }

  private static void unpack(URL packed, Path file) throws IOException {
    Files.createDirectories(file.getParent());
    Path temporary = file.resolveSibling(file.getFileName() + ".new");
    try (InputStream in = packed.openStream()) {
      Files.copy(in, temporary, StandardCopyOption.REPLACE_EXISTING);
    }
    Files.move(
        temporary, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }
}
