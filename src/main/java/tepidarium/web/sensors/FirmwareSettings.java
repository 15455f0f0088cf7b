package tepidarium.web.sensors;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import tepidarium.access.SensorAccount;
import tepidarium.web.sensors.BrokerLogins.SensorAddress;

/** Writes the account of a sensor as lines for the firmware's settings.h. */
final class FirmwareSettings {
  private FirmwareSettings() {}

  static String of(SensorAccount account, String password, SensorAddress address) {
    String sensor = sensor(account, address.rootTopic());
    String lines =
        String.join(
            "\n",
            List.of(
                define("SENSOR", sensor),
                define("TOPIC", address.rootTopic() + '/' + sensor),
                define("BROKER", address.broker().toString()),
                define("BROKER_USER", account.name()),
                define("BROKER_PASSWORD", password)));
    String authority = address.authority();
    return authority == null ? lines : lines + "\n" + certificate(authority);
  }

  /** A string of C over several lines. */
  private static String certificate(String pem) {
    return pem.lines()
        .map(line -> "    \"" + line + "\\n\"")
        .collect(Collectors.joining(" \\\n", "#define BROKER_CA \\\n", ""));
  }

  private static String define(String name, String value) {
    return "#define %s \"%s\"".formatted(name, value.replace("\\", "\\\\").replace("\"", "\\\""));
  }

  /** The sensor of the account's first topic, if it has one sensor; else the account's name. */
  private static String sensor(SensorAccount account, String rootTopic) {
    Pattern own = Pattern.compile(Pattern.quote(rootTopic) + "/([A-Za-z0-9_-]{1,64})(/.*)?");
    return account.topics().stream()
        .map(own::matcher)
        .filter(Matcher::matches)
        .map(matcher -> matcher.group(1))
        .findFirst()
        .orElse(account.name());
  }
}
