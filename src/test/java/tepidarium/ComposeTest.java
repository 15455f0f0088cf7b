package tepidarium;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * What the file for Compose promises. No container engine runs in the tests, so this reads the file
 * and does not start it.
 */
class ComposeTest {
  private static final Path FILE = Path.of("docker-compose.yml");
  private static final Pattern PINNED = Pattern.compile("[a-z-]+:\\d+\\.\\d+\\.\\d+[\\w.-]*");
  private static final Pattern FROM = Pattern.compile("(?m)^FROM (\\S+)");

  private final String text;
  private final JsonNode compose;

  ComposeTest() throws IOException {
    text = Files.readString(FILE);
    compose = new YAMLMapper().readTree(text);
  }

  private Stream<Map.Entry<String, JsonNode>> services() {
    return compose.get("services").propertyStream();
  }

  private String dockerfile() {
    return compose.at("/services/tepidarium/build/dockerfile_inline").asText();
  }

  @Test
  void brokerInfluxAndServiceAreThere() {
    assertEquals(
        Set.of("broker", "influxdb", "tepidarium"),
        Set.copyOf(services().map(Map.Entry::getKey).toList()));
  }

  @Test
  void everyImageIsPinnedToOneVersion() {
    List<String> images = new ArrayList<>();
    services().forEach(service -> images.add(service.getValue().path("image").asText()));
    Matcher from = FROM.matcher(dockerfile());
    while (from.find()) {
      images.add(from.group(1));
    }

    assertEquals(5, images.size());
    images.forEach(image -> assertTrue(PINNED.matcher(image).matches(), image));
  }

  @Test
  void everyServiceHasAHealthCheck() {
    services()
        .forEach(
            service -> {
              JsonNode check = service.getValue().path("healthcheck");
              assertTrue(check.path("test").size() >= 2, service.getKey());
              assertTrue(check.hasNonNull("interval"), service.getKey());
              assertTrue(check.hasNonNull("timeout"), service.getKey());
            });
  }

  @Test
  void persistentDataAreInNamedVolumes() {
    Set<String> used = new TreeSet<>();
    services()
        .forEach(
            service -> {
              String volume = service.getValue().path("volumes").path(0).asText();
              used.add(volume.substring(0, volume.indexOf(':')));
            });

    Set<String> declared = new TreeSet<>();
    compose.get("volumes").fieldNames().forEachRemaining(declared::add);
    assertEquals(declared, used);
    assertEquals(3, used.size());
  }

  @Test
  void noPasswordHasADefault() {
    int passwords = 0;
    for (JsonNode service : compose.get("services")) {
      for (Map.Entry<String, JsonNode> variable : service.get("environment").properties()) {
        if (variable.getKey().contains("PASSWORD")) {
          passwords++;
          String value = variable.getValue().asText();
          assertTrue(value.matches("\\$\\{[A-Z_]+:\\?set it in \\.env}"), variable::toString);
        }
      }
    }
    assertEquals(6, passwords);
    assertFalse(text.contains("PASSWORD:-"));
    assertTrue(compose.at("/configs/mosquitto/content").asText().contains("allow_anonymous false"));
    assertEquals(
        "true", compose.at("/services/influxdb/environment/INFLUXDB_HTTP_AUTH_ENABLED").asText());
  }

  @Test
  void theServiceDoesNotRunAsRoot() {
    String dockerfile = dockerfile();
    assertTrue(dockerfile.lastIndexOf("\nUSER tepidarium\n") > dockerfile.lastIndexOf("FROM "));
  }

  @Test
  void theDockerfileCopiesWhatIsThere() {
    Matcher copy = Pattern.compile("(?m)^COPY (?!--from)(\\S+)").matcher(dockerfile());
    int copies = 0;
    while (copy.find()) {
      copies++;
      assertTrue(Files.exists(Path.of(copy.group(1))), copy.group(1));
    }
    assertEquals(5, copies);
  }

  @Test
  void everySettingOfTheServiceExists() throws ClassNotFoundException {
    Set<String> known = new TreeSet<>();
    for (var setting : Class.forName("tepidarium.app.ConfigFile").getRecordComponents()) {
      String snake = setting.getName().replaceAll("([A-Z])", "_$1");
      known.add("TEPIDARIUM_" + snake.toUpperCase(java.util.Locale.ROOT));
    }
    compose
        .at("/services/tepidarium/environment")
        .fieldNames()
        .forEachRemaining(name -> assertTrue(known.contains(name), name));
  }
}
