package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tepidarium.ingest.Messages.ARRIVAL;
import static tepidarium.ingest.Messages.message;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import tepidarium.reading.InvalidInput;

/** Configured and saved rules together, and the messages that no rule reads. */
class MappingsTest {
  private static final class MemoryStore implements MappingStore {
    private final List<Saved> saved = new ArrayList<>();
    private long ids;

    @Override
    public List<Saved> all() {
      return List.copyOf(saved);
    }

    @Override
    public Saved add(MappingRule rule, Instant at) {
      Saved added = new Saved(++ids, at, rule);
      saved.add(added);
      return added;
    }

    @Override
    public boolean remove(long id) {
      return saved.removeIf(one -> one.id() == id);
    }
  }

  private static MappingRule rule(String topic) {
    return new MappingRule(topic, new MappedValue("/t", null), null, null, null, null, null, null);
  }

  private final Decoder decoder = new Decoder("tepidarium", List.of(), 65_536);
  private final HeardMessages heard = new HeardMessages();
  private final MemoryStore store = new MemoryStore();
  private final Mappings mappings =
      new Mappings(List.of(rule("a/{sensor}")), store, decoder, heard);

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private int readings(String topic) {
    return Messages.decode(decoder, message(topic, "{\"t\":30}")).readings().size();
  }

  @Test
  void aSavedRuleHoldsFromTheNextMessageUntilItIsDeleted() {
    AtomicInteger changes = new AtomicInteger();
    mappings.onChange(changes::incrementAndGet);
    heard.add("b/jar", bytes("{\"t\":30}"), ARRIVAL);
    heard.add("c/jar", bytes("{\"t\":30}"), ARRIVAL);
    assertEquals(0, readings("b/jar"));
    long id = mappings.add(rule("b/{sensor}"), ARRIVAL).id();
    assertEquals(1, readings("b/jar"));
    assertEquals(List.of("tepidarium/#", "a/+", "b/+"), decoder.topicFilters());
    assertEquals(List.of("c/jar"), heard.newest().stream().map(h -> h.topic()).toList());
    assertTrue(mappings.remove(id));
    assertFalse(mappings.remove(id));
    assertEquals(0, readings("b/jar"));
    assertEquals(1, readings("a/jar"));
    assertEquals(3, changes.get());
  }

  @Test
  void aSecondRuleForATopicIsRefused() {
    assertThrows(InvalidInput.class, () -> mappings.add(rule("a/{sensor}"), ARRIVAL));
    MappingTrial trial = mappings.trial(rule("{sensor}/x"), "a/x", bytes("{\"t\":1}"), ARRIVAL);
    assertEquals(1, trial.readings().size());
    assertTrue(trial.problems().get(0).contains("reads this topic already"), "" + trial);
  }

  @Test
  void aRuleCanReadEveryTopicButThoseOfTheOwnFormat() {
    assertFalse(decoder.mayBeMapped("tepidarium/jar"));
    assertFalse(decoder.mayBeMapped("tepidarium/jar/light"));
    assertTrue(decoder.mayBeMapped("tepidarium/jar/state"));
    assertTrue(decoder.mayBeMapped("b/jar"));
  }

  @Test
  void tooManySavedRulesAreRefused() {
    for (int i = 0; i < 100; i++) {
      mappings.add(rule("m" + i + "/{sensor}"), ARRIVAL);
    }
    InvalidInput refused =
        assertThrows(InvalidInput.class, () -> mappings.add(rule("n/{sensor}"), ARRIVAL));
    assertTrue(refused.getMessage().contains("Delete one"), refused.getMessage());
  }

  @Test
  void theNewestMessageOfEachTopicIsKeptWithinLimits() {
    heard.add("old", bytes("1"), ARRIVAL);
    for (int i = 0; i < HeardMessages.MAX_TOPICS - 1; i++) {
      heard.add("t" + i, bytes("2"), ARRIVAL);
    }
    heard.add("old", bytes("3"), ARRIVAL);
    heard.add("large", new byte[HeardMessages.MAX_PAYLOAD_BYTES + 1], ARRIVAL);
    heard.add("empty", new byte[0], ARRIVAL);
    heard.add("binary", new byte[] {(byte) 0xFF, 0}, ARRIVAL);
    List<HeardMessages.Heard> kept = heard.newest();
    assertEquals(HeardMessages.MAX_TOPICS, kept.size());
    assertEquals("binary", kept.get(0).topic());
    assertNull(kept.get(0).text());
    assertEquals("/wA=", kept.get(0).base64());
    assertEquals("3", kept.get(1).text());
    assertTrue(kept.stream().noneMatch(one -> one.topic().equals("t0")));
  }
}
