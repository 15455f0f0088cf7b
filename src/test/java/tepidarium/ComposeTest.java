package tepidarium;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
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
  private static final Pattern PINNED = Pattern.compile("[a-z-]+:\\d+\\.\\d+[\\w.-]*");
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
        Set.copyOf(
            services()
                .filter(service -> !service.getValue().has("profiles"))
                .map(Map.Entry::getKey)
                .toList()));
  }

  /** What {@code docker compose up proxy} starts, with what each of them depends on. */
  @Test
  void twoEqualServicesWithADatabaseAndAProxyAreInAProfile() {
    Set<String> started = new TreeSet<>();
    start("proxy", started);
    assertEquals(Set.of("broker", "database", "first", "second", "proxy"), started);
    services()
        .filter(service -> service.getValue().has("profiles"))
        .forEach(
            service -> {
              assertEquals("two", service.getValue().at("/profiles/0").asText());
              assertTrue(started.contains(service.getKey()), service.getKey());
            });
    ObjectNode first = compose.at("/services/first").deepCopy();
    ObjectNode second = compose.at("/services/second").deepCopy();
    assertNotEquals(first.remove("volumes"), second.remove("volumes"));
    assertEquals(first, second);
    assertEquals("true", first.at("/environment/TEPIDARIUM_STANDBY").asText());
    String proxy = compose.at("/configs/nginx/content").asText();
    assertTrue(proxy.contains("server first:8080") && proxy.contains("server second:8080"));
  }

  private void start(String name, Set<String> started) {
    started.add(name);
    JsonNode needed = compose.at("/services/" + name + "/depends_on");
    if (needed.isArray()) {
      needed.forEach(each -> start(each.asText(), started));
    }
    needed.fieldNames().forEachRemaining(each -> start(each, started));
  }

  @Test
  void everyImageIsPinnedToOneVersion() {
    List<String> images = new ArrayList<>();
    services().forEach(service -> images.add(service.getValue().path("image").asText()));
    Matcher from = FROM.matcher(dockerfile());
    while (from.find()) {
      images.add(from.group(1));
    }

    assertEquals(9, images.size());
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
              for (JsonNode volume : service.getValue().path("volumes")) {
                used.add(volume.asText().substring(0, volume.asText().indexOf(':')));
              }
            });

    Set<String> declared = new TreeSet<>();
    compose.get("volumes").fieldNames().forEachRemaining(declared::add);
    assertEquals(declared, used);
    assertEquals(6, used.size());
  }

  @Test
  void noPasswordHasADefault() {
    int passwords = 0;
    for (JsonNode service : compose.get("services")) {
      for (Map.Entry<String, JsonNode> variable : service.path("environment").properties()) {
        if (variable.getKey().contains("PASSWORD")) {
          passwords++;
          String value = variable.getValue().asText();
          assertTrue(value.matches("\\$\\{[A-Z_]+:\\?set it in \\.env}"), variable::toString);
        }
      }
    }
    assertEquals(13, passwords);
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
    for (String service : List.of("tepidarium", "first", "second")) {
      compose
          .at("/services/" + service + "/environment")
          .fieldNames()
          .forEachRemaining(name -> assertTrue(known.contains(name), name));
    }
  }
}
