package tepidarium.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import com.fasterxml.jackson.databind.node.TextNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;

/** The usual form of a stamp means what the platform's own calendar says. */
class StampsProperties {
  private static final long FIRST_MS = -62_135_596_800_000L;
  private static final long LAST_MS = 253_402_300_799_999L;

  @Property
  void everyInstantThatIsWrittenIsReadAgain(
      @ForAll @LongRange(min = FIRST_MS, max = LAST_MS) long ms) {
    Instant instant = Instant.ofEpochMilli(ms);

    assertEquals(instant, Stamps.read(TextNode.valueOf(instant.toString())));
  }

  @Property
  void textThatIsNoDateOrTimeIsNotRead(
      @ForAll @IntRange(min = 1, max = 9999) int year,
      @ForAll @IntRange(min = 0, max = 13) int month,
      @ForAll @IntRange(min = 0, max = 32) int day,
      @ForAll @IntRange(min = 0, max = 25) int hour,
      @ForAll @IntRange(min = 0, max = 61) int minute,
      @ForAll @IntRange(min = 0, max = 61) int second) {
    String text =
        String.format("%04d-%02d-%02dT%02d:%02d:%02dZ", year, month, day, hour, minute, second);
    Instant read = Stamps.read(TextNode.valueOf(text));

    try {
      LocalDateTime time = LocalDateTime.of(year, month, day, hour, minute, second);
      assertEquals(time.toInstant(ZoneOffset.UTC), read);
    } catch (DateTimeException e) {
      assertNull(read, text);
    }
  }
}
