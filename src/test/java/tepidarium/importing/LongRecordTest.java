package tepidarium.importing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tepidarium.reading.Reading;

/** A record that does not end must not be collected in memory. */
class LongRecordTest {
  private static final long HUGE = 40_000_000;

  /** A file that goes on with the same character, and how much of it was read. */
  private static final class EndlessFile implements Source {
    private final byte[] start;
    private long read;

    EndlessFile(String start) {
      this.start = start.getBytes(StandardCharsets.UTF_8);
    }

    @Override
    public InputStream open() {
      return new InputStream() {
        private long at;

        @Override
        public int read() {
          read = Math.max(read, at);
          return at < start.length ? start[(int) at++] : at++ < HUGE ? 'x' : -1;
        }
      };
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "time,temperature\n%s2026-03-02T00:00Z,\"",
        "# comment\nair,sensor=a temperature=30 1772344800000\nair,sensor=a temperature="
      })
  void theRowsBeforeAreReadAndTheRecordIsReported(String form) throws IOException {
    StringBuilder rows = new StringBuilder();
    for (int i = 0; i < 20_000; i++) {
      rows.append("2026-03-01T06:00:%02dZ,30.%d%n".formatted(i % 60, i % 10));
    }
    String start = form.formatted(rows);
    EndlessFile file = new EndlessFile(start);
    List<Reading> readings = new ArrayList<>();
    List<String> bad = new ArrayList<>();
    LoggerFile.open(file, Imported.DEFAULTS)
        .read(
            new RowReceiver() {
              @Override
              public boolean reading(long line, Reading reading) {
                return readings.add(reading);
              }

              @Override
              public boolean bad(long line, String reason, String text) {
                return bad.add(line + " " + reason);
              }

              @Override
              public boolean empty(long line) {
                return true;
              }
            });
    long lines = start.lines().count();
    assertEquals(form.startsWith("#") ? 1 : 20_000, readings.size());
    assertEquals(List.of(lines + " " + ImportTexts.OPTIONS.say("row.too-long")), bad);
    assertTrue(file.read < start.length() + 2_000_000, file.read + " bytes were read");
  }
}
