package tepidarium.faults;

import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** A data folder that can be read and not written. */
class ReadOnlyIT {
  @TempDir private Path folder;

  @Test
  void aServiceDoesNotStartOnAFolderThatItCannotWriteTo() {
    AssertionError ended =
        assertThrows(
            AssertionError.class,
            () -> ServiceProcess.start(folder, Path.of("/proc/data"), Ports.free(), "embedded"));

    String words = String.valueOf(ended.getMessage());
    assertTrue(words.contains("cannot use the data folder /proc/data"), words);
    assertTrue(words.contains("--data"), words);
  }
}
