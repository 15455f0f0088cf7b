package tepidarium.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.logging.Formatter;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogManager;
import java.util.logging.LogRecord;
import java.util.logging.Logger;

/** The form of the lines in the log, which goes to standard error. */
public enum LogFormat {
  TEXT {
    @Override
    String line(LogRecord event) {
      return "%s %s %s - %s%n%s"
          .formatted(
              time(event),
              level(event).toUpperCase(Locale.ROOT),
              logger(event),
              MESSAGES.formatMessage(event),
              stackTrace(event));
    }
  },

  /** One JSON object a line, for programs that collect logs. */
  JSON {
    @Override
    String line(LogRecord event) {
      Map<String, String> fields = new LinkedHashMap<>();
      fields.put("time", time(event));
      fields.put("level", level(event));
      fields.put("logger", logger(event));
      fields.put("message", MESSAGES.formatMessage(event));
      if (event.getThrown() != null) {
        fields.put("stackTrace", stackTrace(event));
      }
      try {
        return MAPPER.writeValueAsString(fields) + System.lineSeparator();
      } catch (JsonProcessingException e) {
        throw new IllegalStateException("text can always be written as JSON", e);
      }
    }
  };

  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss.SSSXXX").withZone(ZoneOffset.UTC);

  /** Fills in parameters of messages. */
  private static final Formatter MESSAGES =
      new Formatter() {
        @Override
        public String format(LogRecord event) {
          return formatMessage(event);
        }
      };

  /** The own loggers. The reference keeps the level, which the log manager would forget. */
  private static final Logger OWN = Logger.getLogger("tepidarium");

  abstract String line(LogRecord event);

  /**
   * Starts the log as text: warnings of libraries, and own lines from INFO on, or from DEBUG on
   * with the system property {@code tepidarium.log=debug}.
   */
  static void start() {
    try (InputStream levels = LogFormat.class.getResourceAsStream("/logging.properties")) {
      LogManager.getLogManager().readConfiguration(levels);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot start the log", e);
    }
    if ("debug".equalsIgnoreCase(System.getProperty("tepidarium.log"))) {
      OWN.setLevel(Level.FINE);
    }
    TEXT.use();
  }

  /** Writes all further lines of the log in this form. */
  void use() {
    Formatter formatter =
        new Formatter() {
          @Override
          public String format(LogRecord event) {
            return line(event);
          }
        };
    for (Handler handler : Logger.getLogger("").getHandlers()) {
      handler.setFormatter(formatter);
    }
  }

  private static String time(LogRecord event) {
    return TIME.format(event.getInstant());
  }

  private static String level(LogRecord event) {
    int level = event.getLevel().intValue();
    if (level >= Level.SEVERE.intValue()) {
      return "error";
    }
    if (level >= Level.WARNING.intValue()) {
      return "warn";
    }
    return level >= Level.INFO.intValue() ? "info" : "debug";
  }

  /** The class without its package. */
  private static String logger(LogRecord event) {
    String name = String.valueOf(event.getLoggerName());
    return name.substring(name.lastIndexOf('.') + 1);
  }

  private static String stackTrace(LogRecord event) {
    if (event.getThrown() == null) {
      return "";
    }
    StringWriter text = new StringWriter();
    event.getThrown().printStackTrace(new PrintWriter(text, true));
    return text.toString();
  }
}
