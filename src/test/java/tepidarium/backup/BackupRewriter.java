package tepidarium.backup;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Consumer;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;

/** Changes the entries of a backup file and seals it again, so that its seal is right. */
public final class BackupRewriter {
  private BackupRewriter() {}

  /** Writes the changed entries of one file to another. */
  static void change(Path from, Path to, Consumer<Map<String, byte[]>> change) throws IOException {
    Map<String, byte[]> entries = new LinkedHashMap<>();
    try (ZipFile zip = new ZipFile(from.toFile())) {
      for (ZipEntry entry : zip.stream().toList()) {
        entries.put(entry.getName(), zip.getInputStream(entry).readAllBytes());
      }
    }
    change.accept(entries);
    try (OutputStream out = Files.newOutputStream(to);
        ZipOutputStream zip = new ZipOutputStream(out)) {
      zip.setComment(Seal.PLACEHOLDER);
      for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
        zip.putNextEntry(new ZipEntry(entry.getKey()));
        zip.write(entry.getValue());
      }
    }
    Seal.put(to);
  }

  /** Replaces one entry, and its checksum in the manifest. */
  public static void replace(Path file, String name, byte[] content) throws IOException {
    BackupManifest.Part before = BackupFile.open(file).manifest().parts().get(name);
    String sha256 =
        Checksums.copy(
            new ByteArrayInputStream(content), OutputStream.nullOutputStream(), content.length);
    change(
        file,
        file,
        entries -> {
          entries.put(name, content);
          String json = new String(entries.get("manifest.json"), StandardCharsets.UTF_8);
          entries.put(
              "manifest.json",
              json.replace(before.sha256(), sha256)
                  .replace("\"bytes\" : " + before.bytes(), "\"bytes\" : " + content.length)
                  .getBytes(StandardCharsets.UTF_8));
        });
  }
}
