package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Each fault of a message has its code, and the description of the API names the same codes. */
class RejectCodeTest {
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "tepidarium/a b | 1 | TOPIC",
        "elsewhere/a | 1 | UNMAPPED_TOPIC",
        "tepidarium/jar | '' | EMPTY",
        "tepidarium/jar | ' ' | EMPTY",
        "tepidarium/jar | {\"temperature\": | JSON",
        "tepidarium/jar | {} | NO_QUANTITY",
        "tepidarium/jar | [] | NO_QUANTITY",
        "tepidarium/jar | 7 | NO_QUANTITY",
        "tepidarium/jar | {\"temperature\":\"warm\"} | NOT_A_NUMBER",
        "tepidarium/jar | {\"temperature\":900} | OUT_OF_RANGE",
        "tepidarium/jar/light | bright | NOT_A_NUMBER",
        "tepidarium/jar | {\"temperature\":30,\"at\":\"noon\"} | TIME",
        "tepidarium/jar | {\"temperature\":30,\"age\":-1} | TIME",
        "tepidarium/opening/jar | soon | BUTTON"
      })
  void eachFaultHasItsCode(String topic, String payload, RejectCode code) {
    List<Reject> rejects = Messages.decode(Messages.message(topic, payload)).rejects();
    assertEquals(List.of(code), rejects.stream().map(Reject::code).toList());
  }

  @Test
  void aRetainedReadingWithoutItsTimeHasACodeOfItsOwn() {
    Decoded decoded = Messages.decodeRetained("{\"temperature\":30}");
    assertEquals(RejectCode.RETAINED, decoded.rejects().get(0).code());
  }

  @Test
  void keysAreReadBackAndUnknownOnesAreOther() {
    for (RejectCode code : RejectCode.values()) {
      assertEquals(code, RejectCode.ofKey(code.key()));
    }
    assertEquals(RejectCode.OTHER, RejectCode.ofKey("from-a-later-version"));
  }

  @Test
  void theDescriptionOfTheApiNamesTheSameCodes() throws IOException {
    try (InputStream yaml = RejectCodeTest.class.getResourceAsStream("/openapi.yaml")) {
      JsonNode codes =
          new YAMLMapper().readTree(yaml).at("/components/schemas/Reject/properties/code/enum");
      assertEquals(
          Arrays.stream(RejectCode.values()).map(RejectCode::key).toList(),
          StreamSupport.stream(codes.spliterator(), false).map(JsonNode::asText).toList());
    }
  }
}
