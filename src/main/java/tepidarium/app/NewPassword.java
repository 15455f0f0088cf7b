package tepidarium.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Optional;

/**
 * A new password of an owner, on its way from the command {@code password} to the service: the file
 * {@code new-password} in the data folder. The service reads it within a second, or at its next
 * start, and deletes it. Only the service opens the database.
 *
 * @param name name of the owner
 * @param hash hash of the password; the password itself is not stored
 */
record NewPassword(String name, String hash) {
  private static final String FILE = "new-password";

  static boolean exists(Path data) {
    return Files.exists(data.resolve(FILE));
  }

  void write(Path data) throws IOException {
    Path file = data.resolve(FILE);
    // Java creates temporary files with rights for their owner alone.
    Path draft = Files.createTempFile(data, FILE, ".draft");
    Files.writeString(draft, hash + '\n' + name + '\n', StandardCharsets.UTF_8);
    Files.move(draft, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  /** Reads the file and deletes it; empty if there is none or it is damaged. */
  static Optional<NewPassword> take(Path data) throws IOException {
    Path file = data.resolve(FILE);
    if (!Files.exists(file)) {
      return Optional.empty();
    }
    List<String> lines = Files.readAllLines(file, StandardCharsets.UTF_8);
    Files.delete(file);
    return lines.size() < 2
        ? Optional.empty()
        : Optional.of(new NewPassword(lines.get(1), lines.get(0)));
  }
}
