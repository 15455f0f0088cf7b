package tepidarium.backup;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * The data to back up. A service may be using it.
 *
 * @param data the data folder
 * @param parts the data files to copy, as far as they exist
 * @param settings the settings as YAML, without secrets
 * @param product version of this program
 */
public record BackupSource(Path data, Set<BackupPart> parts, String settings, String product) {
  public BackupSource {
    parts = parts.isEmpty() ? Set.of() : Set.copyOf(parts);
  }

  List<BackupPart> existing() {
    return EnumSet.allOf(BackupPart.class).stream()
        .filter(part -> parts.contains(part) && Files.exists(path(part)))
        .toList();
  }

  Path path(BackupPart part) {
    return data.resolve(part.fileName());
  }
}
