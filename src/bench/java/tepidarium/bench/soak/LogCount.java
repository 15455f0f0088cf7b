package tepidarium.bench.soak;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogManager;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import java.util.logging.SimpleFormatter;
import java.util.stream.Collectors;

/** Counts the lines of warnings and errors in the log in place of writing the log. */
final class LogCount extends Handler implements AutoCloseable {
  private final AtomicLong lines = new AtomicLong();
  private final Map<String, Long> linesBySource = new ConcurrentHashMap<>();
  private final Map<String, String> firstBySource = new ConcurrentHashMap<>();
  private final AtomicLong errors = new AtomicLong();
  private final SimpleFormatter formatter = new SimpleFormatter();
  private final Logger root = LogManager.getLogManager().getLogger("");
  private final Handler[] before = root.getHandlers();
  private volatile String firstError = "";

  LogCount() {
    for (Handler handler : before) {
      root.removeHandler(handler);
    }
    root.addHandler(this);
  }

  @Override
  public void publish(LogRecord entry) {
    if (entry.getLevel().intValue() < Level.WARNING.intValue()) {
      return;
    }
    String text = formatter.format(entry);
    long count = text.lines().count();
    lines.addAndGet(count);
    String source = entry.getLoggerName() + '.' + entry.getSourceMethodName();
    linesBySource.merge(source, count, Long::sum);
    firstBySource.putIfAbsent(source, formatter.formatMessage(entry));
    if (entry.getLevel().intValue() >= Level.SEVERE.intValue() && errors.getAndIncrement() == 0) {
      firstError = text;
    }
  }

  long lines() {
    return lines.get();
  }

  /** The methods that wrote the most lines, with their numbers and first messages. */
  String mostFrequent() {
    return linesBySource.entrySet().stream()
        .sorted(Map.Entry.<String, Long>comparingByValue().reversed())
        .limit(5)
        .map(
            source ->
                "\n- %s: %d, first: %s"
                    .formatted(
                        source.getKey(), source.getValue(), firstBySource.get(source.getKey())))
        .collect(Collectors.joining());
  }

  /** The number of errors, and the first of them; empty without one. */
  String errors() {
    return errors.get() == 0 ? "" : errors.get() + " errors in the log, first: " + firstError;
  }

  @Override
  public void flush() {}

  @Override
  public void close() {
    root.removeHandler(this);
    for (Handler handler : before) {
      root.addHandler(handler);
    }
  }
}
