package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.ingest.Messages.ARRIVAL;
import static tepidarium.ingest.Messages.BAG;
import static tepidarium.ingest.Messages.decoder;
import static tepidarium.ingest.Messages.message;
import static tepidarium.ingest.Messages.reason;
import static tepidarium.ingest.Messages.temperature;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Readings;
import tepidarium.reading.SensorId;

class MappingRuleTest {
  private static final String YAML =
      """
      - topic: garden/{sensor}/state
        temperature: {pointer: /bme/temp, unit: °F}
        humidity: {pointer: /bme/hum, unit: fraction}
        light: {pointer: /lux}
        battery: {pointer: /power~1mains/0, unit: mV}
        at: /time
      - topic: "{sensor}/probes/+/#"
        temperature: {unit: K}
      """;

  private static List<MappingRule> fromYaml(String yaml) throws JsonProcessingException {
    return new YAMLMapper().readValue(yaml, new TypeReference<List<MappingRule>>() {});
  }

  private static MappingRule temperatureAt(String topic, String pointer, @Nullable String unit) {
    return new MappingRule(
        topic, new MappedValue(pointer, unit), null, null, null, null, null, null);
  }

  private static Decoded decode(MappingRule rule, String topic, String payload) {
    return Messages.decode(decoder(rule), message(topic, payload));
  }

  @Test
  void carbonDioxideInPercentAndMoistureAsAFractionAreConverted() {
    MappingRule rule =
        new MappingRule(
            "a/{sensor}",
            null,
            null,
            null,
            null,
            new MappedValue("/c", "%"),
            new MappedValue("/m", "fraction"),
            null);
    Reading reading = decode(rule, "a/bag-1", "{\"c\":0.42,\"m\":0.385}").readings().get(0);
    assertEquals(
        Map.of(Quantity.CARBON_DIOXIDE, 4_200.0, Quantity.MEDIUM_MOISTURE, 38.5), reading.values());
  }

  @Test
  void rulesAreReadFromTheConfigurationAndConvertUnits() throws JsonProcessingException {
    Decoder decoder = new Decoder("tepidarium", fromYaml(YAML), 1000);

    assertEquals(List.of("tepidarium/#", "garden/+/state", "+/probes/+/#"), decoder.topicFilters());
    assertEquals(
        new Decoded(
            List.of(
                Readings.ofAir(
                    new SensorId("b1"), Instant.ofEpochSecond(1772341200), 30.2, 96.1, 12.5, 3.91)),
            List.of()),
        Messages.decode(
            decoder,
            message(
                "garden/b1/state",
                "{\"bme\":{\"temp\":86.36,\"hum\":\"0.961\"},\"lux\":12.5,"
                    + "\"power/mains\":[3910],\"time\":1772341200}")));
    assertEquals(
        List.of(Readings.ofAir(new SensorId("b2"), ARRIVAL, 30.2, null, null, null)),
        Messages.decode(decoder, message("b2/probes/3/raw", "303.35")).readings());
  }

  @ParameterizedTest
  @CsvSource({
    "temperature,°C,30.2,30.2",
    "temperature,C,30.2,30.2",
    "temperature,F,212,100",
    "temperature,K,273.15,0",
    "humidity,%,96.1,96.1",
    "humidity,percent,96.1,96.1",
    "humidity,fraction,1,100",
    "light,lux,0.83,0.83",
    "light,lx,0.83,0.83",
    "battery,V,3.91,3.91",
    "battery,mV,3913,3.913"
  })
  void unitsBecomeThoseOfTheReading(String quantity, String unit, String sent, double expected)
      throws JsonProcessingException {
    MappingRule rule =
        fromYaml("- topic: a/{sensor}\n  %s: {pointer: /v, unit: '%s'}".formatted(quantity, unit))
            .get(0);
    Reading reading = decode(rule, "a/s", "{\"v\":" + sent + "}").readings().get(0);

    assertEquals(expected, reading.value(rule.values().keySet().iterator().next()));
  }

  @Test
  void aConvertedValueOutOfRangeIsReportedInBothUnits() {
    String reason = reason(decode(temperatureAt("a/{sensor}", "", "°F"), "a/s", "600"));

    assertTrue(reason.contains("temperature 315.5556 (sent as 600.0 °F) is outside"), reason);
  }

  @ParameterizedTest
  @CsvSource({
    "a/{sensor}/state, a/bag-1/state, bag-1",
    "a/{sensor}/state, a/Büro 1/state, B-ro-1",
    "a/{sensor}/state, a/🌱x/state, -x",
    "{sensor}/#, bag-1, bag-1",
    "{sensor}/#, bag-1/x/y, bag-1",
    "+/{sensor}/+, x/bag-1/, bag-1",
    "/{sensor}, /bag-1, bag-1",
    "tepidarium/{sensor}/env/x, tepidarium/bag-1/env/x, bag-1",
    "tepidarium/{sensor}, tepidarium/bag 1, bag-1"
  })
  void theSensorsNameIsTakenFromItsPlace(String filter, String topic, String sensor) {
    Decoded decoded = decode(temperatureAt(filter, "", null), topic, "30");

    assertEquals(
        List.of(Readings.ofAir(new SensorId(sensor), ARRIVAL, 30.0, null, null, null)),
        decoded.readings());
  }

  @Test
  void aLongForeignNameIsCut() {
    String topic = "a/" + "n".repeat(70);

    assertEquals(
        "n".repeat(64),
        decode(temperatureAt("a/{sensor}", "", null), topic, "30")
            .readings()
            .get(0)
            .sensor()
            .name());
  }

  @ParameterizedTest
  @CsvSource({
    "a/{sensor}/state, a/bag-1",
    "a/{sensor}/state, a/bag-1/state/x",
    "a/{sensor}/state, a/bag-1/State",
    "a/{sensor}/state, a//state",
    "a/{sensor}/#, a",
    "a/{sensor}/+, a/bag-1",
    "{sensor}/a, $SYS/a",
    "+/{sensor}, $SYS/a"
  })
  void otherTopicsDoNotFit(String filter, String topic) {
    Decoded decoded = decode(temperatureAt(filter, "", null), topic, "30");

    assertTrue(reason(decoded).contains("add a mapping rule"), reason(decoded));
  }

  @Test
  void theOwnFormatComesBeforeTheFirstRuleThatMatches() {
    Decoder decoder =
        decoder(
            temperatureAt("+/{sensor}/temperature", "", "°F"),
            temperatureAt("+/{sensor}/#", "", "K"));

    assertEquals(
        List.of(temperature(86)),
        Messages.decode(decoder, message("tepidarium/bag-1/temperature", "86")).readings());
    assertEquals(
        List.of(temperature(30)),
        Messages.decode(decoder, message("a/bag-1/temperature", "86")).readings());
  }

  @Test
  void sameFiltersAreSubscribedToOnce() {
    Decoder decoder =
        decoder(temperatureAt("a/{sensor}/+", "", null), temperatureAt("a/+/{sensor}", "", null));

    assertEquals(List.of("tepidarium/#", "a/+/+"), decoder.topicFilters());
  }

  @Test
  void aPayloadWithoutTheMappedFieldsNamesBoth() {
    String reason =
        reason(decode(temperatureAt("a/{sensor}", "/t/c", null), "a/s", "{\"temp\":3,\"x\":1}"));

    assertTrue(reason.contains("no value at /t/c; found temp, x"), reason);
    assertTrue(reason.contains("a/+"), reason);
    assertTrue(
        reason(decode(temperatureAt("a/{sensor}", "/t", null), "a/s", "\"online\""))
            .contains("found a text"));
  }

  @Test
  void mappedTimesFollowTheSameRules() {
    MappingRule rule =
        new MappingRule(
            "a/{sensor}", new MappedValue("/t", null), null, null, null, null, null, "/when");
    Message retained = message("a/s", "{\"t\":30}".getBytes(StandardCharsets.UTF_8), true);

    Decoded unset = decode(rule, "a/bag-1", "{\"t\":30,\"when\":12}");
    assertEquals(List.of(temperature(30)), unset.readings());
    assertTrue(reason(unset).contains("clock says 1970-01-01T00:00:12Z; stored"), reason(unset));
    assertTrue(
        reason(Messages.decode(decoder(rule), retained)).contains("retained message without at"));
  }

  @ParameterizedTest
  @CsvSource({
    "'', is empty",
    "garden/state, exactly one level {sensor}",
    "#, exactly one level {sensor}",
    "{sensor}/{sensor}, exactly one level {sensor}",
    "a/#/{sensor}, has #",
    "a/{sensor}/b#, has #",
    "a+/{sensor}, has +",
    "a/x{sensor}, has a brace",
    "a/{name}/{sensor}, has a brace",
    "$share/g/{sensor}, shared subscription"
  })
  void aTopicThatCannotBeUsedIsRefused(String topic, String problem) {
    refused(problem, () -> temperatureAt(topic, "", null));
    refused('"' + topic + '"', () -> temperatureAt(topic, "", null));
    refused("garden/{sensor}/state", () -> temperatureAt(topic, "", null));
  }

  @ParameterizedTest
  @ValueSource(strings = {"temp", "#/temp", "/a~2b", "/a~", "$.temp"})
  void anInvalidJsonPointerIsRefused(String pointer) {
    refused('"' + pointer + '"', () -> temperatureAt("a/{sensor}", pointer, null));
    refused("not a JSON Pointer: begin", () -> temperatureAt("a/{sensor}", pointer, null));
    refused(
        "at has the pointer",
        () ->
            new MappingRule(
                "a/{sensor}", new MappedValue("/t", null), null, null, null, null, null, pointer));
  }

  @Test
  void aUnitOfAnotherQuantityIsRefusedWithThoseThatFit() {
    refused(
        "temperature has the unit \"lux\", which is not one of °C, °F, K",
        () -> temperatureAt("a/{sensor}", "/t", "lux"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"%", "percent", "fraction"})
  void aBatteryInPercentIsRefusedWithTheReason(String unit) {
    refused(
        "cannot be converted to volts: map the voltage, or leave battery out",
        () ->
            new MappingRule(
                "a/{sensor}",
                null,
                null,
                null,
                new MappedValue("/battery", unit),
                null,
                null,
                null));
  }

  @Test
  void fieldsThatExcludeEachOtherAreRefused() {
    MappedValue whole = new MappedValue("", null);
    MappedValue field = new MappedValue("/v", null);

    refused(
        "no quantity is mapped",
        () -> new MappingRule("{sensor}", null, null, null, null, null, null, null));
    refused(
        "whole payload",
        () -> new MappingRule("{sensor}", whole, field, null, null, null, null, null));
    refused(
        "whole payload",
        () -> new MappingRule("{sensor}", whole, null, null, null, null, null, "/at"));
    refused(
        "humidity has the pointer /v, which another quantity already has",
        () -> new MappingRule("{sensor}", field, field, null, null, null, null, null));
    refused(
        "at is empty", () -> new MappingRule("{sensor}", field, null, null, null, null, null, ""));
  }

  @Test
  void aRuleWithoutTopicIsRefusedInTheConfiguration() {
    Exception e =
        assertThrows(JsonProcessingException.class, () -> fromYaml("- temperature: {unit: K}"));

    assertTrue(String.valueOf(e.getMessage()).contains("a mapping rule has no topic"));
  }

  private static void refused(String problem, Executable construction) {
    Exception e = assertThrows(IllegalArgumentException.class, construction);
    String message = String.valueOf(e.getMessage());

    assertTrue(message.startsWith("the mapping rule for \""), message);
    assertTrue(message.contains(problem), message);
  }

  @Test
  void pointersReachIntoArraysAndObjects() {
    MappingRule rule =
        new MappingRule(
            "a/{sensor}",
            new MappedValue("/1/t", null),
            new MappedValue("/2", null),
            new MappedValue("/2/0/lux", null),
            null,
            null,
            null,
            "/0");
    Decoded decoded =
        decode(rule, "a/bag-1", "[1772341200,{\"x\":[{}],\"t\":30},[{\"lux\":5},7],{},8]");

    Instant at = Instant.parse("2026-03-01T05:00:00Z");
    assertEquals(List.of(Readings.ofAir(BAG, at, 30.0, null, 5.0, null)), decoded.readings());
    assertTrue(reason(decoded).startsWith("humidity […] is not a number"), reason(decoded));
  }
}
