package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class NewPasswordTest {
  @TempDir private Path data;

  @Test
  void theServiceTakesItOnce() throws IOException {
    NewPassword given = new NewPassword("Olu Ä", "$2b$10$hash");
    given.write(data);
    assertTrue(NewPassword.exists(data));
    assertEquals(Optional.of(given), NewPassword.take(data));
    assertFalse(NewPassword.exists(data));
    assertEquals(Optional.empty(), NewPassword.take(data));
  }

  @Test
  void onlyItsOwnerMayReadIt() throws IOException {
    new NewPassword("owner", "$2b$10$hash").write(data);
    try (Stream<Path> files = Files.list(data)) {
      for (Path file : files.toList()) {
        assertEquals(
            "rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(file)));
      }
    }
  }

  @Test
  void aDamagedFileIsDropped() throws IOException {
    Files.writeString(data.resolve("new-password"), "half a line");
    assertEquals(Optional.empty(), NewPassword.take(data));
    assertFalse(NewPassword.exists(data));
  }
}
