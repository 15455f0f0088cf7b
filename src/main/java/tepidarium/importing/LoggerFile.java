package tepidarium.importing;

import java.io.IOException;
import java.nio.charset.Charset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InvalidInput;

/** A file of another logger: how it was understood, and its readings. Not thread-safe. */
public final class LoggerFile {
  private final Source source;
  private final FileText text;
  private final List<Guess> guesses;

  /** Null for line protocol. */
  private final @Nullable CsvPlan plan;

  private LoggerFile(Source source, FileText text, List<Guess> guesses, @Nullable CsvPlan plan) {
    this.source = source;
    this.text = text;
    this.guesses = List.copyOf(guesses);
    this.plan = plan;
  }

  /**
   * Guesses the form of a file.
   *
   * @throws InvalidInput if it cannot be imported; the message names the remedy
   */
  public static LoggerFile open(Source source, ImportOptions options) throws IOException {
    List<Guess> guesses = new ArrayList<>();
    Charset charset = FileEncoding.guess(source, options, guesses);
    FileText text = new FileText(charset, options);
    String head = FileEncoding.head(source, charset);
    if (head.isBlank()) {
      throw options.texts().refusal("empty");
    }
    if (options.delimiter() == null && LineProtocol.isIn(head)) {
      ImportTexts texts = options.texts();
      guesses.add(
          texts.guess("form", texts.say("form.line-protocol"), texts.say("why.line-protocol")));
      return new LoggerFile(source, text, guesses, null);
    }
    CsvPlan plan = CsvGuesser.guess(head, source, text, guesses);
    return new LoggerFile(source, text, guesses, plan);
  }

  /** What was guessed or set, with reasons. */
  public List<Guess> guesses() {
    return guesses;
  }

  /** Reads the file from its start; returns remarks on its rows. */
  public List<String> read(RowReceiver receiver) throws IOException {
    if (plan == null) {
      new LineProtocol(text.options()).read(source, text.charset(), receiver);
      return List.of();
    }
    CsvRows rows = new CsvRows(plan, text.options());
    rows.read(source, text.charset(), receiver);
    return rows.notes();
  }
}
