package tepidarium.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.time.Instant;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import org.junit.jupiter.api.Test;

class LogFormatTest {
  private static LogRecord event(Level level, String message) {
    LogRecord event = new LogRecord(level, message);
    event.setLoggerName("tepidarium.ingest.Intake");
    event.setInstant(Instant.parse("2026-03-01T06:00:00.5Z"));
    return event;
  }

  @Test
  void aTextLineHasTimeLevelClassAndMessage() {
    assertEquals(
        "2026-03-01T06:00:00.500Z WARN Intake - 80 % full\n",
        LogFormat.TEXT.line(event(Level.WARNING, "80 % full")));
  }

  @Test
  void aJsonLineIsOneLineWhateverTheMessage() throws IOException {
    LogRecord event = event(Level.SEVERE, "a \"quote\"\nand a line");
    event.setThrown(new IllegalStateException("broken"));
    String line = LogFormat.JSON.line(event);

    assertEquals(line.length() - 1, line.indexOf('\n'));
    JsonNode fields = new ObjectMapper().readTree(line);
    assertEquals("2026-03-01T06:00:00.500Z", fields.get("time").textValue());
    assertEquals("error", fields.get("level").textValue());
    assertEquals("Intake", fields.get("logger").textValue());
    assertEquals("a \"quote\"\nand a line", fields.get("message").textValue());
    assertTrue(
        fields.get("stackTrace").textValue().startsWith("java.lang.IllegalStateException: broken"));
  }

  @Test
  void parametersAreFilledIn() {
    LogRecord event = event(Level.INFO, "{0} readings");
    event.setParameters(new Object[] {7});
    assertEquals("2026-03-01T06:00:00.500Z INFO Intake - 7 readings\n", LogFormat.TEXT.line(event));
  }
}
