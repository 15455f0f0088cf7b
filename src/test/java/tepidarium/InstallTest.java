package tepidarium;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Installs a packaged program below another root folder, with a script in place of its Java. */
class InstallTest {
  private static final Path PACKAGE = Path.of("src/package");
  private static final String UNIT = "etc/systemd/system/tepidarium.service";

  /** "Medium" begins at 5.0; the range is 0 (best) to 10. */
  private static final int HIGHEST_EXPOSURE_TENTHS = 30;

  private record Ended(int status, String words) {}

  @TempDir private Path folder;
  private Path program;
  private Path root;

  @BeforeEach
  void aPackagedProgram() throws IOException {
    program = Files.createDirectories(folder.resolve("program"));
    root = Files.createDirectories(folder.resolve("root"));
    Files.createDirectories(program.resolve("package"));
    Files.copy(Path.of("tepidarium"), program.resolve("tepidarium"));
    for (String file :
        List.of("service", "command", "tepidarium.service", "sysusers.conf", "tepidarium.yaml")) {
      Files.copy(PACKAGE.resolve(file), program.resolve("package").resolve(file));
    }
    Path java = Files.createDirectories(program.resolve("runtime/bin")).resolve("java");
    Files.writeString(java, "#!/bin/sh\n");
    assertTrue(java.toFile().setExecutable(true, false));
    Files.writeString(program.resolve("runtime/release"), "JAVA_VERSION=\"17.0.1\"\n");
    Files.writeString(program.resolve("tepidarium.jar"), "1");
  }

  private static Ended run(List<String> command) {
    try {
      Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
      process.getOutputStream().close();
      String words = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return new Ended(process.waitFor(), words);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private Ended start(String... arguments) {
    List<String> command = new ArrayList<>(List.of(program.resolve("tepidarium").toString()));
    command.addAll(List.of(arguments));
    return run(command);
  }

  private String installed() {
    Ended ended = start("install", "--root", root.toString());
    assertEquals(0, ended.status(), ended.words());
    return ended.words();
  }

  private String refused(String verb) {
    Ended ended = start(verb, "--root=" + root);
    assertEquals(1, ended.status(), ended.words());
    return ended.words();
  }

  private List<String> files() throws IOException {
    try (Stream<Path> all = Files.walk(root)) {
      return all.filter(Files::isRegularFile)
          .map(file -> root.relativize(file).toString())
          .filter(file -> !file.startsWith("opt/tepidarium/"))
          .sorted()
          .toList();
    }
  }

  private String permissions(String file) throws IOException {
    return PosixFilePermissions.toString(Files.getPosixFilePermissions(root.resolve(file)));
  }

  @Test
  void installWritesProgramUserSettingsAndUnit() throws IOException {
    String words = installed();

    assertTrue(words.contains("unit written: " + root.resolve(UNIT)), words);
    assertTrue(words.contains("settings written: " + root), words);
    assertTrue(words.contains("not enabled, because of --root"), words);
    String unit = Files.readString(root.resolve(UNIT));
    assertTrue(unit.contains("\nExecStart=/opt/tepidarium/tepidarium --config"), unit);
    assertFalse(unit.contains("@PROGRAM@"), unit);
    assertTrue(Files.isExecutable(root.resolve("opt/tepidarium/tepidarium")));
    assertTrue(Files.readString(root.resolve("etc/passwd")).contains("tepidarium:x:"));
    assertEquals("rwxr-x---", permissions("var/lib/tepidarium"));
    assertEquals("rw-r-----", permissions("etc/tepidarium/tepidarium.yaml"));
    assertEquals("rwxr-xr-x", permissions("usr/local/bin/tepidarium"));
  }

  @Test
  void aFurtherInstallReplacesTheProgramAndKeepsSettings() throws IOException {
    installed();
    Path settings = root.resolve("etc/tepidarium/tepidarium.yaml");
    Files.writeString(settings, "httpPort: 80\n");
    Files.writeString(root.resolve("opt/tepidarium/old"), "of the version before");
    Files.writeString(program.resolve("tepidarium.jar"), "2");

    String words = installed();

    assertTrue(words.contains("settings kept: " + settings), words);
    assertEquals("httpPort: 80\n", Files.readString(settings));
    assertEquals("2", Files.readString(root.resolve("opt/tepidarium/tepidarium.jar")));
    assertFalse(Files.exists(root.resolve("opt/tepidarium/old")));
  }

  @Test
  void uninstallLeavesDataSettingsAndUser() throws IOException {
    installed();
    Files.writeString(root.resolve("var/lib/tepidarium/records.db"), "records");
    Files.createDirectories(root.resolve("var/cache/tepidarium"));

    Ended ended = start("uninstall", "--root", root.toString());

    assertEquals(0, ended.status(), ended.words());
    assertTrue(ended.words().contains("kept: the data in " + root.resolve("var/lib/tepidarium")));
    List<String> left = new ArrayList<>(files());
    left.removeIf(file -> file.matches("etc/(passwd|group|shadow|gshadow)-?|etc/\\.pwd\\.lock"));
    assertEquals(List.of("etc/tepidarium/tepidarium.yaml", "var/lib/tepidarium/records.db"), left);
    assertFalse(Files.exists(root.resolve("opt/tepidarium")));
    assertFalse(Files.exists(root.resolve("var/cache/tepidarium")));
    assertTrue(Files.readString(root.resolve("etc/passwd")).contains("tepidarium:x:"));
    assertTrue(refused("uninstall").contains("the service is not installed"));
  }

  @Test
  void filesOfSomebodyElseAreNotReplaced() throws IOException {
    Path unit = root.resolve(UNIT);
    Files.createDirectories(unit.getParent());
    Files.writeString(unit, "[Service]\nExecStart=/bin/true\n");
    for (String verb : List.of("install", "uninstall")) {
      String words = refused(verb);
      assertTrue(words.contains(unit + " exists and was not written by Tepidarium"), words);
    }
    assertEquals(List.of(UNIT), files());

    Files.delete(unit);
    Path other = Files.createDirectories(root.resolve("opt/tepidarium"));
    assertTrue(refused("install").contains(other + " exists and is not Tepidarium's program"));

    Path ofThePackage = root.resolve("usr/lib/systemd/system/tepidarium.service");
    Files.createDirectories(ofThePackage.getParent());
    Files.createFile(ofThePackage);
    assertTrue(refused("install").contains("apt-get remove tepidarium"));
  }

  /** Runs as a user who could change nothing on this machine, even if the check were missing. */
  @Test
  void installNeedsRoot() throws IOException {
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
    List<String> command =
        new ArrayList<>(
            List.of("setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", "--"));
    if (!System.getProperty("user.name").equals("root")) {
      command.clear();
    }
    command.addAll(List.of(program.resolve("tepidarium").toString(), "install"));

    assertEquals(
        new Ended(1, "tepidarium: install changes the system and needs root: run it with sudo\n"),
        run(command));
  }

  @Test
  void wrongArgumentsAreRefusedAndHelpChangesNothing() throws IOException {
    assertEquals(0, start("install", "--help").status());
    assertEquals(1, start("install", "--port", "80").status());
    assertTrue(start("install", "--root=/none").words().contains("there is no folder /none"));
    assertEquals(List.of(), files());
  }

  @Test
  void theUnitIsHardenedAndCorrect() throws IOException {
    installed();
    String unit = root.resolve(UNIT).toString();

    Ended rated =
        run(
            List.of(
                "systemd-analyze",
                "security",
                "--offline=true",
                "--no-pager",
                "--threshold=" + HIGHEST_EXPOSURE_TENTHS,
                unit));
    assertEquals(0, rated.status(), rated.words());

    Ended verified = run(List.of("systemd-analyze", "verify", "--man=no", "--root=" + root, unit));
    assertFalse(verified.words().matches("(?s).*tepidarium.service:\\d+: .*"), verified.words());
    assertFalse(verified.words().contains("is not executable"), verified.words());
    String text = Files.readString(Path.of(unit));
    for (String line :
        List.of("Restart=always", "User=tepidarium", "MemoryMax=512M", "ProtectSystem=strict")) {
      assertTrue(text.contains("\n" + line + "\n"), line);
    }
  }
}
