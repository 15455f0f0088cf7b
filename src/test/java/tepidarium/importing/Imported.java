package tepidarium.importing;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;

/** What a file in memory gives when it is imported. */
final class Imported implements RowReceiver {
  static final Instant NOW = Instant.parse("2026-11-30T00:00:00Z");
  static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
  static final ImportOptions DEFAULTS = ImportOptions.guessAll("shelf 2.csv", BERLIN, NOW);

  final List<Reading> readings = new ArrayList<>();
  final List<String> bad = new ArrayList<>();
  final List<Guess> guesses;
  final List<String> notes;
  int empty;

  private Imported(byte[] file, ImportOptions options) {
    try {
      LoggerFile opened = LoggerFile.open(() -> new ByteArrayInputStream(file), options);
      guesses = opened.guesses();
      notes = opened.read(this);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Imported of(String text) {
    return of(text, DEFAULTS);
  }

  static Imported of(String text, ImportOptions options) {
    return of(text.getBytes(StandardCharsets.UTF_8), options);
  }

  static Imported of(byte[] file, ImportOptions options) {
    return new Imported(file, options);
  }

  static ImportOptions withColumns(Map<String, String> columns) {
    return new ImportOptions(
        null,
        null,
        null,
        null,
        null,
        null,
        null,
        columns,
        "shelf 2.csv",
        BERLIN,
        NOW,
        ImportTexts.OPTIONS);
  }

  /** One line for each reading: sensor, instant and values in the order of the quantities. */
  List<String> lines() {
    return readings.stream()
        .map(
            reading -> {
              StringBuilder line = new StringBuilder();
              line.append(reading.sensor()).append(' ').append(reading.at());
              for (Quantity quantity : Quantity.values()) {
                Double value = reading.value(quantity);
                if (value != null) {
                  line.append(' ').append(quantity.key()).append('=').append(value);
                }
              }
              return line.toString();
            })
        .toList();
  }

  String guess(String what) {
    return guesses.stream()
        .filter(guess -> guess.what().startsWith(what))
        .map(guess -> guess.value() + ": " + guess.reason())
        .findFirst()
        .orElse("none");
  }

  @Override
  public boolean reading(long line, Reading reading) {
    readings.add(reading);
    return true;
  }

  @Override
  public boolean bad(long line, String reason, String text) {
    return bad.add(line + ": " + reason);
  }

  @Override
  public boolean empty(long line) {
    empty++;
    return true;
  }
}
