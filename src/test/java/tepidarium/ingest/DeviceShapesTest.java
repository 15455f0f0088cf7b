package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.ingest.Messages.ARRIVAL;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The usual shapes of messages of devices, each read by a mapping rule. */
class DeviceShapesTest {
  private static final Decoder DECODER = new Decoder("tepidarium", List.of(), 65_536);

  private static MappingRule rule(String yaml) {
    try {
      return new YAMLMapper().readValue(yaml, MappingRule.class);
    } catch (JsonProcessingException e) {
      if (e.getCause() instanceof IllegalArgumentException cause) {
        throw cause;
      }
      throw new AssertionError(e);
    }
  }

  private static MappingTrial trial(String yaml, String topic, byte[] payload) {
    return DECODER.tryRule(rule(yaml), new Message(topic, payload, MessageDelivery.LIVE, ARRIVAL));
  }

  private static MappingTrial trial(String yaml, String topic, String payload) {
    return trial(yaml, topic, payload.getBytes(StandardCharsets.UTF_8));
  }

  private static Map<String, Double> values(MappingTrial trial) {
    assertEquals(List.of(), trial.problems());
    assertEquals(1, trial.readings().size());
    Map<String, Double> values = new TreeMap<>();
    trial.readings().get(0).values().forEach((quantity, v) -> values.put(quantity.key(), v));
    return values;
  }

  @Test
  void nestedObjects() {
    MappingTrial trial =
        trial(
            """
            topic: home/+/{sensor}/state
            temperature: {pointer: /air/now/temp, unit: °F}
            humidity: {pointer: /air/now/rh, unit: fraction}
            battery: {pointer: /power/mv, unit: mV}
            """,
            "home/shed/jar 1/state",
            "{\"air\":{\"now\":{\"temp\":\"86\",\"rh\":0.935}},\"power\":{\"mv\":3912}}");
    assertEquals(Map.of("temperature", 30.0, "humidity", 93.5, "battery", 3.912), values(trial));
    assertEquals("jar-1", trial.readings().get(0).sensor().name());
  }

  @Test
  void arraysOfChannels() {
    String yaml =
        """
        topic: box/{sensor}
        temperature: {pointer: /channels/1/value, factor: 0.1}
        light: {pointer: /channels/0/value}
        """;
    String payload = "{\"channels\":[{\"id\":\"lx\",\"value\":7},{\"id\":\"t\",\"value\":-15}]}";
    assertEquals(Map.of("temperature", -1.5, "light", 7.0), values(trial(yaml, "box/a", payload)));
    assertEquals(
        Map.of("temperature", 28.25),
        values(trial("{topic: '{sensor}/v', temperature: {pointer: /2}}", "a/v", "[1,2,28.25]")));
  }

  @ParameterizedTest
  @CsvSource({
    "temperature: {unit: F},             temperature, 212,     100",
    "temperature: {factor: 0.01},        temperature, 2147,    21.47",
    "'battery: {unit: mV, plus: 40}',    battery,     3300,    3.34",
    "'humidity: {unit: fraction}',       humidity,    '\"0.5\"', 50",
    "'temperature: {factor: 0.5, plus: -40}', temperature, 141, 30.5"
  })
  void onePlainNumberForEachTopic(String value, String key, String payload, double expected) {
    MappingTrial trial = trial("topic: a/{sensor}/x\n" + value, "a/s/x", payload);
    assertEquals(Map.of(key, expected), values(trial));
  }

  /** 0x0BB8 is 3000, 0xF448 is −3000, 0xC5 is 197 or −59, 0x0F3C is 3900. */
  private static final byte[] PACKED = HexFormat.of().parseHex("0bb8f448c50f3c");

  private static final String PACKED_VALUES =
      """
      temperature: {firstByte: 0, length: 2, signed: true, factor: 0.01}
      humidity: {firstByte: 4, factor: 0.5}
      battery: {firstByte: 5, length: 2, unit: mV}
      """;

  @Test
  void base64InsideJson() {
    String data = Base64.getEncoder().withoutPadding().encodeToString(PACKED);
    String payload =
        "{\"up\":{\"port\":2,\"data\":\"" + data + "\"},\"rx\":\"2026-03-01T06:00:00Z\"}";
    MappingTrial trial =
        trial(
            "topic: net/{sensor}/up\nat: /rx\nbytes: {pointer: /up/data, encoding: base64}\n"
                + PACKED_VALUES,
            "net/node-7/up",
            payload);
    assertEquals(Map.of("temperature", 30.0, "humidity", 98.5, "battery", 3.9), values(trial));
    assertEquals("2026-03-01T06:00:00Z", trial.readings().get(0).at().toString());
  }

  @ParameterizedTest
  @ValueSource(strings = {"0bb8f448c50f3c", "0x0BB8F448C50F3C", "\"0B B8 F4 48 C5 0F 3C\"\n"})
  void hexAsTheWholePayload(String payload) {
    String yaml = "topic: h/{sensor}\nbytes: {encoding: hex}\n" + PACKED_VALUES;
    assertEquals(
        Map.of("temperature", 30.0, "humidity", 98.5, "battery", 3.9),
        values(trial(yaml, "h/a", payload)));
  }

  @Test
  void rawBytesThatAreNoText() {
    String yaml = "topic: r/{sensor}\nbytes: {encoding: raw}\n" + PACKED_VALUES;
    assertEquals(
        Map.of("temperature", 30.0, "humidity", 98.5, "battery", 3.9),
        values(trial(yaml, "r/a", PACKED)));
  }

  @ParameterizedTest
  @CsvSource({
    "'firstByte: 2, length: 2, signed: true, factor: 0.01',               -30",
    "'firstByte: 2, length: 2, order: little, signed: true, factor: 0.001', 18.676",
    "'firstByte: 4, signed: true, factor: 0.5',                            -29.5",
    "'firstByte: 0, length: 3, order: little, factor: 0.000001',           16.037899",
    "'firstByte: 0, length: 4, factor: 0.0000001',                         19.6670536"
  })
  void byteOrderSignAndLength(String place, double expected) {
    String yaml = "topic: r/{sensor}\nbytes: {encoding: raw}\ntemperature: {" + place + "}";
    assertEquals(expected, values(trial(yaml, "r/a", PACKED)).get("temperature"), 1e-6);
  }

  @Test
  void packedBytesAndJsonValuesInOneMessage() {
    MappingTrial trial =
        trial(
            """
            topic: m/{sensor}
            bytes: {pointer: /d, encoding: hex}
            temperature: {firstByte: 0, length: 2, factor: 0.01}
            battery: {pointer: /v}
            """,
            "m/a",
            "{\"d\":\"0bb8\",\"v\":3.7}");
    assertEquals(Map.of("temperature", 30.0, "battery", 3.7), values(trial));
  }

  @ParameterizedTest
  @CsvSource({
    "'{\"d\":\"0bb\"}',  the text at /d is not hex",
    "'{\"d\":\"0b\"}',   'temperature is at bytes 0 to 1, but the message has only 1'",
    "'{\"e\":\"0bb8\"}', no text at /d; found e",
    "'{\"d\":3000}',     no text at /d",
    "'{\"d\":\"7fff\"}', 'temperature 327.67 is outside -55 to 125'",
    "'\"0bb8\"',         no text at /d; found"
  })
  void unusableBytesGiveNoReadingAndTheReason(String payload, String reason) {
    MappingTrial trial =
        trial(
            "topic: m/{sensor}\nbytes: {pointer: /d, encoding: hex}\n"
                + "temperature: {firstByte: 0, length: 2, factor: 0.01}",
            "m/a",
            payload);
    assertEquals(List.of(), trial.readings());
    assertTrue(trial.problems().toString().contains(reason), trial.problems().toString());
  }

  @Test
  void aRuleThatReadsNothingStatesTheReason() {
    String yaml = "topic: a/{sensor}\ntemperature: {pointer: /t}";
    assertTrue(
        trial(yaml, "b/x", "{}").problems().get(0).contains("does not match \"a/{sensor}\""));
    String own = "topic: tepidarium/{sensor}\ntemperature: {pointer: /t}";
    assertTrue(trial(own, "tepidarium/x", "{\"t\":1}").problems().get(0).contains("own format"));
  }

  @ParameterizedTest
  @CsvSource({
    "'bytes: {encoding: utf}',                                   'set base64, hex or raw'",
    "'bytes: {}',                                                'no encoding'",
    "'bytes: {encoding: raw, pointer: /a}',                      'has no pointer'",
    "'bytes: {encoding: hex}\ntemperature: {pointer: /a}',       'add firstByte, or remove bytes'",
    "'temperature: {firstByte: 1}',                              'add bytes, such as'",
    "'bytes: {encoding: hex}\ntemperature: {firstByte: -1}',     'count from 0'",
    "'bytes: {encoding: hex}\ntemperature: {firstByte: 0, length: 5}', 'use 1 to 4'",
    "'bytes: {encoding: hex}\ntemperature: {firstByte: 0, order: mixed}', 'use big or little'",
    "'bytes: {encoding: hex}\ntemperature: {firstByte: 0, pointer: /a}', 'both pointer and firstByte'",
    "'temperature: {pointer: /a, length: 2}',                    'without firstByte'",
    "'temperature: {pointer: /a, factor: 0}',                    'factor of 0'",
    "'bytes: {encoding: hex}\nat: /t\ntemperature: {firstByte: 0}', 'whole payload is bytes'"
  })
  void wrongRulesAreRefusedWithARemedy(String parts, String words) {
    IllegalArgumentException refused =
        assertThrows(IllegalArgumentException.class, () -> rule("topic: a/{sensor}\n" + parts));
    assertTrue(refused.getMessage().contains(words), refused.getMessage());
  }
}
