package tepidarium;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** When the start script makes its archive of classes, with a script in place of the JDK. */
class StartScriptTest {
  private static final String JAVA =
      """
      #!/bin/sh
      echo "$*" >>"$(dirname "$0")/../calls"
      for option; do case "$option" in
        -XX:DumpLoadedClassList=*) touch "${option#*=}"; exit "${TRAINING_STATUS:-0}" ;;
        -XX:AOTCacheOutput=*) echo archive >"${option#*=}"; exit "${TRAINING_STATUS:-0}" ;;
        -XX:SharedArchiveFile=*) file=${option#*=} ;;
      esac; done
      case "$*" in *-Xshare:dump*) echo archive >"$file" ;; esac
      """;

  @TempDir private Path folder;
  private Path home;

  @BeforeEach
  void aBuiltInstallation() throws IOException {
    home = Files.createDirectories(folder.resolve("home"));
    Files.copy(Path.of("tepidarium"), home.resolve("tepidarium"));
    Files.createDirectories(home.resolve("src/main"));
    Files.createDirectories(home.resolve("grafana-free-dashboards"));
    Files.createFile(home.resolve("pom.xml"));
    Files.createDirectories(home.resolve("target"));
    Files.createFile(home.resolve("target/tepidarium.jar"));
    jdk("17.0.1");
  }

  private Path jdk(String version) throws IOException {
    Path jdk = Files.createDirectories(folder.resolve("jdk-" + version));
    Path bin = Files.createDirectories(jdk.resolve("bin"));
    Files.writeString(jdk.resolve("release"), "JAVA_VERSION=\"" + version + "\"\n");
    for (String program : List.of("java", "javac")) {
      File file = Files.writeString(bin.resolve(program), JAVA).toFile();
      assertTrue(file.setExecutable(true));
    }
    return jdk;
  }

  private String start(String version, String... environment) throws Exception {
    ProcessBuilder builder =
        new ProcessBuilder("sh", home.resolve("tepidarium").toString(), "--help");
    builder.environment().put("JAVA_HOME", folder.resolve("jdk-" + version).toString());
    for (String setting : environment) {
      builder.environment().put(setting.split("=")[0], setting.split("=")[1]);
    }
    Process process = builder.redirectErrorStream(true).start();
    String words = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), words);
    return words;
  }

  /** What Java has been called with since the last look, a line each. */
  private List<String> calls(String version) throws IOException {
    Path file = folder.resolve("jdk-" + version + "/calls");
    List<String> lines = Files.exists(file) ? Files.readAllLines(file) : List.of();
    Files.deleteIfExists(file);
    return lines;
  }

  private List<String> archives() throws IOException {
    List<String> names = new ArrayList<>();
    try (var files = Files.list(home.resolve("target"))) {
      files.map(file -> file.getFileName().toString()).sorted().forEach(names::add);
    }
    names.remove("tepidarium.jar");
    return names;
  }

  @Test
  void theArchiveIsMadeOnceWhateverTheCommand() throws Exception {
    start("17.0.1");
    List<String> calls = calls("17.0.1");
    assertEquals(3, calls.size(), calls.toString());
    assertTrue(calls.get(0).contains(" train "), calls.get(0));
    assertTrue(calls.get(1).contains("-Xshare:dump"), calls.get(1));
    assertEquals(1, archives().size(), archives().toString());
    assertTrue(archives().get(0).matches("classes-17\\.0\\.1-\\d+\\.jsa"), archives().get(0));
    assertTrue(calls.get(2).contains("target/" + archives().get(0)), calls.get(2));

    start("17.0.1");
    assertEquals(calls.subList(2, 3), calls("17.0.1"));
  }

  @Test
  void aNewerBuildAndAnotherJdkHaveArchivesOfTheirOwn() throws Exception {
    start("17.0.1");
    Path archive = home.resolve("target").resolve(archives().get(0));
    Files.setLastModifiedTime(archive, FileTime.from(Instant.EPOCH));
    start("17.0.1");
    assertNotEquals(FileTime.from(Instant.EPOCH), Files.getLastModifiedTime(archive));

    jdk("25");
    start("25");
    List<String> calls = calls("25");
    assertEquals(2, calls.size(), calls.toString());
    assertTrue(calls.get(1).contains("-XX:AOTCache=" + home.resolve("target")), calls.get(1));
    assertEquals(2, archives().size(), archives().toString());
  }

  @Test
  void aFailedTrainingDoesNotStopTheStartAndIsNotRepeated() throws Exception {
    String words = start("17.0.1", "TRAINING_STATUS=1");
    assertTrue(words.contains("cannot create the archive of classes"), words);
    assertEquals(2, calls("17.0.1").size());
    assertTrue(archives().get(0).endsWith(".jsa.failed"), archives().toString());
    start("17.0.1", "TRAINING_STATUS=1");
    assertEquals(1, calls("17.0.1").size());
  }

  /** The tools that check the pages lie in there; the jar has none of them. */
  @Test
  void toolsThatAreNewerThanTheJarDoNotMakeItBeBuiltAgain() throws Exception {
    start("17.0.1");
    calls("17.0.1");
    Path tools = Files.createDirectories(home.resolve("grafana-free-dashboards/node_modules/a"));
    Path tool = Files.createFile(tools.resolve("a.js"));
    FileTime later = FileTime.from(Instant.now().plusSeconds(60));
    Files.setLastModifiedTime(tool, later);
    FileTime before = FileTime.from(Instant.now().minusSeconds(60));
    Files.setLastModifiedTime(home.resolve("grafana-free-dashboards"), before);
    start("17.0.1");
    assertEquals(1, calls("17.0.1").size());
  }

  /**
   * systemd gives the service a cache folder. A folder of root's, such as /opt, gets no archive.
   */
  @Test
  void aPackagedProgramHasItsArchiveInTheCacheFolder() throws Exception {
    Files.createSymbolicLink(home.resolve("runtime"), folder.resolve("jdk-17.0.1"));
    Files.createFile(home.resolve("tepidarium.jar"));
    Path cache = Files.createDirectories(folder.resolve("cache"));
    start("17.0.1");
    assertEquals(1, calls("17.0.1").size());

    Path older = Files.createFile(cache.resolve("classes-17.0.0-1.jsa"));
    start("17.0.1", "CACHE_DIRECTORY=" + cache);
    assertEquals(3, calls("17.0.1").size());
    assertEquals(List.of(), archives());
    assertFalse(Files.exists(older));

    start("17.0.1", "CACHE_DIRECTORY=" + cache);
    List<String> calls = calls("17.0.1");
    assertEquals(1, calls.size(), calls.toString());
    assertTrue(calls.get(0).contains("-XX:SharedArchiveFile=" + cache), calls.get(0));

    Files.writeString(home.resolve("tepidarium.jar"), "a later version of the same time");
    start("17.0.1", "CACHE_DIRECTORY=" + cache);
    assertEquals(3, calls("17.0.1").size());
  }
}
