package tepidarium.backup;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import tepidarium.reading.InvalidInput;
import tepidarium.sqlite.SqliteCopy;
import tepidarium.sqlite.UnusableFile;

/**
 * A backup file whose checksum, entries and versions were found to be right. It is a ZIP archive of
 * data files, settings and a manifest, and ends with a {@link Seal}.
 *
 * @param seal checksum of the whole file
 */
public record BackupFile(Path path, BackupManifest manifest, String seal) {
  private static final int MAX_MANIFEST_BYTES = 1 << 20;

  /**
   * Checks a file.
   *
   * @throws InvalidInput when it is missing, damaged, of a later version, or no backup; the message
   *     names the remedy
   */
  public static BackupFile open(Path path) {
    try {
      if (Files.isDirectory(path)) {
        throw new InvalidInput(path + " is a folder. Name a backup file");
      }
      String seal = Seal.read(path);
      if (seal == null) {
        throw new InvalidInput(
            path + " is cut off, or it is not a backup of Tepidarium. Use another backup");
      }
      if (!seal.equals(Seal.checksum(path))) {
        throw damaged(path, "its checksum is wrong");
      }
      try (ZipFile zip = new ZipFile(path.toFile())) {
        BackupManifest manifest = manifest(path, zip);
        checkEntries(path, zip, manifest);
        checkVersions(path, manifest);
        return new BackupFile(path, manifest, seal);
      }
    } catch (NoSuchFileException | java.io.FileNotFoundException e) {
      throw new InvalidInput("there is no file " + path, e);
    } catch (ZipException | JsonProcessingException e) {
      throw damaged(path, "it cannot be read", e);
    } catch (IOException e) {
      throw new InvalidInput("cannot read " + path + ": " + e, e);
    }
  }

  private static BackupManifest manifest(Path path, ZipFile zip) throws IOException {
    ZipEntry entry = zip.getEntry(BackupManifest.FILE_NAME);
    if (entry == null) {
      throw damaged(path, "it has no " + BackupManifest.FILE_NAME);
    }
    BackupManifest manifest;
    try (InputStream in = zip.getInputStream(entry)) {
      manifest =
          BackupManifest.JSON.readValue(in.readNBytes(MAX_MANIFEST_BYTES), BackupManifest.class);
    }
    if (manifest == null || manifest.format() < 1) {
      throw damaged(path, "its " + BackupManifest.FILE_NAME + " is not one of a backup");
    }
    if (manifest.format() > BackupManifest.FORMAT) {
      throw later(path, manifest, "its format is " + manifest.format());
    }
    return manifest;
  }

  /** Accepts only names of the known parts. A name such as "../x" is therefore refused. */
  private static void checkEntries(Path path, ZipFile zip, BackupManifest manifest) {
    Set<String> expected = new HashSet<>(manifest.parts().keySet());
    expected.removeIf(
        name -> BackupPart.of(name).isEmpty() && !name.equals(BackupManifest.SETTINGS));
    expected.add(BackupManifest.FILE_NAME);
    List<String> found = zip.stream().map(ZipEntry::getName).toList();
    found.stream()
        .filter(name -> !expected.contains(name))
        .findFirst()
        .ifPresent(
            name -> {
              throw new InvalidInput(
                  path
                      + " has the entry \""
                      + name
                      + "\", which no backup has. It was changed, or Tepidarium did not make it. Use"
                      + " another backup");
            });
    expected.addAll(manifest.parts().keySet());
    boolean hasData = Stream.of(BackupPart.values()).anyMatch(manifest::contains);
    if (!hasData || found.size() != expected.size() || !expected.equals(Set.copyOf(found))) {
      throw damaged(path, "its entries are not those of its manifest");
    }
  }

  private static void checkVersions(Path path, BackupManifest manifest) {
    for (BackupPart part : BackupPart.values()) {
      BackupManifest.Part entry = manifest.parts().get(part.fileName());
      if (entry != null && entry.schemaVersion() > part.schemaVersion()) {
        throw later(
            path,
            manifest,
            part.fileName()
                + " has schema version "
                + entry.schemaVersion()
                + ", and this version supports versions up to "
                + part.schemaVersion());
      }
    }
  }

  private static InvalidInput later(Path path, BackupManifest manifest, String reason) {
    return new InvalidInput(
        path
            + " was written by a later version of Tepidarium ("
            + manifest.product()
            + "): "
            + reason
            + ". Restore it with that version or a later one");
  }

  private static InvalidInput damaged(Path path, String reason) {
    return new InvalidInput(path + " is damaged: " + reason + ". Use another backup");
  }

  private static InvalidInput damaged(Path path, String reason, Exception cause) {
    return new InvalidInput(path + " is damaged: " + reason + ". Use another backup", cause);
  }

  /** Returns the size of all extracted entries. */
  public long extractedBytes() {
    return manifest.parts().values().stream().mapToLong(BackupManifest.Part::bytes).sum();
  }

  /**
   * Compares each entry with its checksum in the manifest.
   *
   * @throws InvalidInput when one differs
   */
  void checkParts() throws IOException {
    try (ZipFile zip = new ZipFile(path.toFile())) {
      for (String name : manifest.parts().keySet()) {
        read(zip, name, OutputStream.nullOutputStream());
      }
    }
  }

  /**
   * Extracts every entry into a folder, syncs it, and opens each data file to check it.
   *
   * @param folder an existing, empty folder
   * @throws InvalidInput when an entry is damaged or of a later version
   */
  public void extractInto(Path folder) throws IOException {
    try (ZipFile zip = new ZipFile(path.toFile())) {
      for (String name : manifest.parts().keySet()) {
        Path target = folder.resolve(name);
        try (OutputStream out = Files.newOutputStream(target)) {
          read(zip, name, out);
        }
        DurableFile.sync(target);
        if (BackupPart.of(name).isPresent()) {
          checkDatabase(name, target);
        }
      }
    }
  }

  private void read(ZipFile zip, String name, OutputStream out) throws IOException {
    BackupManifest.Part expected = manifest.parts().get(name);
    ZipEntry entry = zip.getEntry(name);
    if (expected == null || entry == null) {
      throw damaged(path, name + " is missing");
    }
    try (InputStream in = zip.getInputStream(entry)) {
      String sha256 = Checksums.copy(in, out, expected.bytes());
      if (!sha256.equals(expected.sha256()) || in.read() >= 0) {
        throw damaged(path, "the checksum of " + name + " is wrong");
      }
    } catch (ZipException e) {
      throw damaged(path, name + " cannot be read", e);
    }
  }

  private void checkDatabase(String name, Path file) {
    BackupManifest.Part expected = manifest.parts().get(name);
    try {
      SqliteCopy.check(file);
      if (expected != null && SqliteCopy.version(file) != expected.schemaVersion()) {
        throw damaged(path, name + " has another version than its manifest says");
      }
    } catch (UnusableFile e) {
      throw damaged(path, String.valueOf(e.getMessage()), e);
    }
  }
}
