package tepidarium.ingest.mqtt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TopicNamesTest {
  @ParameterizedTest
  @CsvSource({
    "a/b, a/b, true",
    "a/b, a/c, false",
    "a/b, a, false",
    "a, a/b, false",
    "a/#, a/b/c, true",
    "a/#, a, true",
    "a/#, a/#, true",
    "a/#, b, false",
    "a/+, a/b, true",
    "a/+, a/+, true",
    "a/+, a/#, false",
    "a/b, a/+, false",
    "a/+/c, a/b/c, true",
    "a/+/c, a/b/d, false",
    "#, a/b, true",
    "+/+, a/b, true",
    "+/+, a/b/c, false",
  })
  void aFilterCoversWhatMatchesIt(String wide, String narrow, boolean covers) {
    assertEquals(covers, TopicNames.covers(wide, narrow));
  }

  @Test
  void ordinaryTopicsAreAccepted() {
    assertNull(TopicNames.problem("tepidarium/bag-1"));
    assertNull(TopicNames.problem("tepidarium/Grün/\uFFFD/\uD83C\uDF31"));
    assertNull(TopicNames.problemEmbedded("a:b"));
    assertNotNull(TopicNames.problemEmbedded("a::b"));
    assertNotNull(TopicNames.problem(""));
  }

  @Test
  void aTopicMayHaveAHundredLevels() {
    assertNull(TopicNames.problemEmbedded("a" + "/b".repeat(99)));
    assertNotNull(TopicNames.problemEmbedded("a" + "/b".repeat(100)));
  }
}
