package tepidarium.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLGenerator;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Writes settings as YAML for a backup. Leaves out every secret, and lists their names. */
final class SettingsCopy {
  /**
   * Settings whose values are secrets. An asterisk stands for every name. Addresses of webhooks and
   * heartbeats are secrets, because whoever knows one can use it.
   */
  static final List<String> SECRETS =
      List.of(
          "accounts.*",
          "brokerPassword",
          "recordsPassword",
          "readingsPassword",
          "influxPassword",
          "influxToken",
          "siteTokens.*",
          "notices.email.password",
          "notices.webhook.url",
          "notices.webhook.secret",
          "notices.heartbeatUrl");

  private static final YAMLMapper YAML =
      YAMLMapper.builder().disable(YAMLGenerator.Feature.WRITE_DOC_START_MARKER).build();

  private SettingsCopy() {}

  static String of(ObjectNode settings) {
    ObjectNode copy = settings.deepCopy();
    List<String> removed = new ArrayList<>();
    removeSecrets("", copy, removed);
    String note =
        "# The settings at the time of the backup. "
            + (removed.isEmpty()
                ? "None was secret.\n"
                : "These secrets are left out; fill them in: " + String.join(", ", removed) + "\n");
    try {
      return note + YAML.writeValueAsString(copy);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("cannot write the settings as YAML", e);
    }
  }

  private static void removeSecrets(String prefix, ObjectNode settings, List<String> removed) {
    for (Map.Entry<String, JsonNode> setting : List.copyOf(settings.properties())) {
      String name = prefix + setting.getKey();
      if (SECRETS.contains(name) || SECRETS.contains(prefix + '*')) {
        // The name stays with an empty value: without accounts, the broker would accept everybody.
        settings.putNull(setting.getKey());
        removed.add(name);
      } else if (setting.getValue() instanceof ObjectNode section) {
        removeSecrets(name + '.', section, removed);
      }
    }
  }
}
