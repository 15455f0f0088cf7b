package tepidarium.it;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.jar.Attributes;
import java.util.jar.JarFile;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The list of libraries that is shipped in the jar: complete, checked, and with usable licences.
 */
class LibrariesIT {
  /**
   * Licences (SPDX) under which a library may be shipped unchanged beside code under the MIT
   * licence. The texts of the licences allow that; see also the categories A and B of the Apache
   * Software Foundation's third-party licence policy (value from memory).
   */
  private static final Set<String> USABLE =
      Set.of(
          "Apache-2.0",
          "MIT",
          "BSD-2-Clause",
          "BSD-3-Clause",
          "CC0-1.0",
          "EPL-2.0",
          "FreeBSD-License");

  private static final Path LIST = Path.of("src/main/resources/META-INF/libraries.txt");

  private record Library(String checksum, String file, List<String> licences) {
    static Library of(String line) {
      String[] parts = line.split(" {2}", -1);
      return new Library(parts[0], parts[1], Arrays.asList(parts[2].split("\\|", -1)));
    }
  }

  private static List<Library> libraries() throws IOException {
    return Files.readAllLines(LIST).stream().map(Library::of).toList();
  }

  @Test
  void theListHasTheLibrariesOfTheJarAndNoOthers() throws IOException {
    try (JarFile jar = new JarFile("target/tepidarium.jar")) {
      String classPath = jar.getManifest().getMainAttributes().getValue(Attributes.Name.CLASS_PATH);
      Set<String> used =
          Arrays.stream(classPath.split(" ", -1))
              .map(path -> path.substring("lib/".length()))
              .collect(Collectors.toCollection(TreeSet::new));
      Set<String> listed =
          libraries().stream().map(Library::file).collect(Collectors.toCollection(TreeSet::new));

      assertEquals(used, listed);
      assertTrue(jar.getEntry("META-INF/libraries.txt") != null);
    }
  }

  @Test
  void everyLibraryHasAUsableLicence() throws IOException {
    List<Library> unusable =
        libraries().stream()
            .filter(library -> library.licences().stream().noneMatch(USABLE::contains))
            .toList();

    assertEquals(List.of(), unusable);
  }

  @Test
  void aChangedOrMissingLibraryFailsTheBuild(@TempDir Path folder) throws Exception {
    Library first = libraries().get(0);
    Path list = folder.resolve("libraries.txt");
    Files.writeString(list, first.checksum() + "  " + first.file() + "  MIT\n");
    Path copy = folder.resolve(first.file());

    assertTrue(check(folder, list).contains(first.file() + ": FAILED open or read"));
    Files.copy(Path.of("target/lib", first.file()), copy);
    assertEquals("", check(folder, list));
    byte[] bytes = Files.readAllBytes(copy);
    bytes[bytes.length / 2] ^= 1;
    Files.write(copy, bytes);
    assertTrue(check(folder, list).contains(first.file() + ": FAILED"));
  }

  /** What the check says; it succeeds exactly if it says nothing. */
  private static String check(Path folder, Path list) throws Exception {
    Process process =
        new ProcessBuilder("src/build/check-libraries", folder.toString(), list.toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(process.getInputStream().readAllBytes());
    assertEquals(said.isEmpty(), process.waitFor() == 0, said);
    return said;
  }
}
