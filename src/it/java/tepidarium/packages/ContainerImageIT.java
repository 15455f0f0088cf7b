package tepidarium.packages;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Ports;

/**
 * Builds the container image, inspects its layers and its configuration, and runs it: its entry
 * point as its user, on a root folder that has the files of its layers and no others.
 */
class ContainerImageIT {
  @TempDir private static Path folder;

  private static final ObjectMapper JSON = new ObjectMapper();
  private static Path root;
  private static JsonNode image;
  private static JsonNode config;
  private static String listing = "";

  @BeforeAll
  static void image() throws Exception {
    Packages.build("image");
    Path unpacked = Files.createDirectories(folder.resolve("image"));
    Packages.run("tar", "-xf", Packages.built("image.tar").toString(), "-C", "" + unpacked);
    image = JSON.readTree(unpacked.resolve("manifest.json").toFile()).get(0);
    config = JSON.readTree(unpacked.resolve(image.get("Config").textValue()).toFile());
    root = Files.createDirectories(folder.resolve("root"));
    for (JsonNode layer : image.get("Layers")) {
      String file = unpacked.resolve(layer.textValue()).toString();
      listing +=
          Packages.run(
              "tar", "-xvvzpf", file, "-C", "" + root, "--warning=no-unknown-keyword", "--utc");
    }
  }

  @Test
  void theConfigurationSaysUserPortsVolumeAndStart() throws IOException {
    JsonNode compose = new YAMLMapper().readTree(Path.of("docker-compose.yml").toFile());
    assertEquals(
        compose.at("/services/tepidarium/image").textValue(),
        image.get("RepoTags").get(0).textValue());
    JsonNode container = config.get("config");
    assertEquals("10001:10001", container.get("User").textValue());
    assertEquals(Set.of("8080/tcp", "1883/tcp"), names(container.get("ExposedPorts")));
    assertEquals(Set.of("/data"), names(container.get("Volumes")));
    JsonNode entryPoint = container.get("Entrypoint");
    assertEquals("java", entryPoint.get(0).textValue());
    assertEquals("tepidarium.app.Main", entryPoint.get(entryPoint.size() - 1).textValue());
    String fixed = "<project.build.outputTimestamp>" + config.get("created").textValue() + "<";
    assertTrue(Files.readString(Path.of("pom.xml")).contains(fixed), fixed);
  }

  private static Set<String> names(JsonNode object) {
    Set<String> names = new TreeSet<>();
    object.fieldNames().forEachRemaining(names::add);
    return names;
  }

  @Test
  void theLayersHaveTheProgramAndLittleElse() throws IOException {
    Set<String> listed =
        Files.readAllLines(Path.of("src/main/resources/META-INF/libraries.txt")).stream()
            .map(line -> line.split(" +", -1)[1])
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(listed, files(root.resolve("app/libs")));
    assertEquals(Set.of("tepidarium.jar"), files(root.resolve("app/classpath")));
    assertEquals(Set.of("bash"), files(root.resolve("bin")));
    assertEquals(
        Set.of("bash", "libc6", "libgcc-s1", "libstdc++6", "libtinfo6", "zlib1g"),
        files(root.resolve("usr/share/doc")));
    assertEquals(
        Set.of("app", "bin", "data", "etc", "lib", "lib64", "opt", "tmp", "usr", "var"),
        topFolders());
  }

  /** Those of the layers: the sandbox adds two for its mounts. */
  private static Set<String> topFolders() throws IOException {
    Set<String> folders = files(root);
    folders.removeAll(Set.of("proc", "dev"));
    return folders;
  }

  private static Set<String> files(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      Set<String> names = new TreeSet<>();
      files.forEach(file -> names.add(file.getFileName().toString()));
      return names;
    }
  }

  @Test
  void noFileIsOfTheBuilderOrRunsAsRoot() throws IOException {
    List<String> lines = listing.lines().toList();
    assertTrue(lines.size() > 300, lines.size() + " files");
    for (String line : lines) {
      assertTrue(line.contains(" 0/0 "), line);
      assertFalse(line.substring(1, 10).contains("s"), line);
    }
    String here = Path.of("").toAbsolutePath().toString();
    List<Path> texts = new ArrayList<>();
    try (Stream<Path> files = Files.walk(root)) {
      files
          .filter(Files::isRegularFile)
          .filter(file -> !file.toString().matches(".*/(proc|dev|legal|modules)(/.*)?|.*\\.jar"))
          .forEach(texts::add);
    }
    for (Path file : texts) {
      String text = Files.readString(file, StandardCharsets.ISO_8859_1);
      assertFalse(text.contains(here), file.toString());
      assertFalse(text.contains("PRIVATE KEY-----"), file.toString());
    }
    assertFalse(config.toString().contains(here));
    assertFalse(config.toString().toLowerCase(Locale.ROOT).contains("password"));
  }

  /** The exit status of the health check of the file for Compose, at the port of an address. */
  private static int health(Sandbox machine, String address) {
    try {
      JsonNode compose = new YAMLMapper().readTree(Path.of("docker-compose.yml").toFile());
      JsonNode check = compose.at("/services/tepidarium/healthcheck/test");
      String port = address.substring(address.lastIndexOf(':') + 1);
      List<String> command = new ArrayList<>();
      for (JsonNode word : check) {
        command.add(word.textValue().replace("$$", "$").replace("8080", port));
      }
      assertEquals("CMD", command.remove(0));
      command.set(0, "/bin/" + command.get(0));
      Process process = new ProcessBuilder(machine.commandAs("10001", "10001", command)).start();
      return process.waitFor();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  @Test
  void itsEntryPointStartsAServiceThatReceivesReadings() {
    JsonNode container = config.get("config");
    String[] user = container.get("User").textValue().split(":");
    List<String> command = new ArrayList<>(List.of("/bin/bash", "-c"));
    StringBuilder start = new StringBuilder();
    container.get("Env").forEach(one -> start.append("export '" + one.textValue() + "'; "));
    start.append("exec");
    container.get("Entrypoint").forEach(one -> start.append(" '" + one.textValue() + "'"));
    command.add(start + " \"$@\"");
    command.add("start");
    try (Sandbox machine = Sandbox.of(root)) {
      List<String> all = machine.commandAs(user[0], user[1], command);
      Packages.receives(folder, all, address -> assertEquals(0, health(machine, address)));
      assertEquals(1, health(machine, "http://127.0.0.1:" + Ports.free()));
    }
    assertTrue(Files.exists(root.resolve("data/records.db")));
  }
}
