package tepidarium.web.sensors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import tepidarium.access.SensorAccount;
import tepidarium.web.sensors.BrokerLogins.SensorAddress;

class FirmwareSettingsTest {
  private static final SensorAddress ADDRESS =
      new SensorAddress(URI.create("mqtt://192.168.1.5:1883"), "tepidarium", null);

  private static SensorAccount account(String name, String... topics) {
    return new SensorAccount(name, "", List.of(topics), List.of(), Instant.EPOCH);
  }

  @Test
  void theLinesAreThoseOfTheFirmwaresSettings() throws IOException {
    List<String> header =
        Files.readAllLines(Path.of("firmware-notes/board/esp-idf/main/settings.h"));
    String text = FirmwareSettings.of(account("jar-1", "tepidarium/jar-1/#"), "abcd", ADDRESS);
    assertEquals(
        """
        #define SENSOR "jar-1"
        #define TOPIC "tepidarium/jar-1"
        #define BROKER "mqtt://192.168.1.5:1883"
        #define BROKER_USER "jar-1"
        #define BROKER_PASSWORD "abcd"
        """
            .strip(),
        text);
    text.lines()
        .map(line -> line.substring(0, line.indexOf('"') + 1))
        .forEach(
            start ->
                assertEquals(1, header.stream().filter(l -> l.startsWith(start)).count(), start));
  }

  @Test
  void withTlsTheCertificateIsAStringOverSeveralLines() {
    SensorAddress tls =
        new SensorAddress(
            URI.create("mqtts://shelf.local:8883"), "tepidarium", "-----BEGIN\nabc\n-----END\n");
    String text = FirmwareSettings.of(account("jar-1", "tepidarium/jar-1/#"), "abcd", tls);
    assertTrue(
        text.endsWith(
            """
            #define BROKER_PASSWORD "abcd"
            #define BROKER_CA \\
                "-----BEGIN\\n" \\
                "abc\\n" \\
                "-----END\\n\""""),
        text);
  }

  @Test
  void theSensorIsThatOfTheFirstTopicWithOne() {
    String text =
        FirmwareSettings.of(account("shed", "garden/#", "tepidarium/jar-7"), "abcd", ADDRESS);
    assertTrue(text.startsWith("#define SENSOR \"jar-7\"\n"), text);
    String gateway = FirmwareSettings.of(account("shed", "tepidarium/+"), "abcd", ADDRESS);
    assertTrue(gateway.startsWith("#define SENSOR \"shed\"\n"), gateway);
  }
}
