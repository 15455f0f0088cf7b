package tepidarium.importing;

import java.io.IOException;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tepidarium.importing.ImportTexts.Setting;
import tepidarium.importing.TimeColumns.Kind;
import tepidarium.reading.InvalidInput;

/** Guesses which columns hold the time, how it is written, and its zone. */
final class TimeGuess {
  private static final Pattern ZONE =
      Pattern.compile("\\b(?:UTC|GMT)\\s*([+\\-\u2212]\\d{1,2}(?::?\\d{2})?)?(?![\\w/])");

  /** Shares of the cells of a column that are times, of all rows of the sample. */
  private record Shares(double full, double date, double clock, double epoch, boolean offset) {}

  private final LoggerTable table;
  private final ImportOptions options;
  private final ImportTexts texts;
  private final List<Guess> guesses;
  private final DateTimeText text = new DateTimeText();
  private final List<Shares> shares = new ArrayList<>();
  private final List<ColumnWords> words;

  /** Feeds all dates of the file to a guess. The sample may be too short to decide. */
  interface AllDates {
    void addTo(DateOrderGuess guess, int column) throws IOException;
  }

  TimeGuess(
      LoggerTable table, List<ColumnWords> words, ImportOptions options, List<Guess> guesses) {
    this.table = table;
    this.words = words;
    this.options = options;
    this.texts = options.texts();
    this.guesses = guesses;
    for (int i = 0; i < table.width(); i++) {
      shares.add(sharesOf(i));
    }
  }

  private Shares sharesOf(int column) {
    double full = 0;
    double date = 0;
    double clock = 0;
    double epoch = 0;
    boolean offset = false;
    for (List<String> row : table.rows()) {
      String cell = row.get(column);
      if (Epoch.isPlausible(cell)) {
        epoch++;
      } else if (text.read(cell)) {
        full += text.hasDate && text.hasTime ? 1 : 0;
        date += text.hasDate && !text.hasTime ? 1 : 0;
        clock += text.hasDate ? 0 : 1;
        offset |= text.hasOffset;
      }
    }
    double rows = table.rows().size();
    return new Shares(full / rows, date / rows, clock / rows, epoch / rows, offset);
  }

  /**
   * Guesses the time.
   *
   * @param hint the order that other properties of the file suggest; null if there is none
   * @throws InvalidInput if no column holds a time or the order of its dates stays ambiguous
   */
  TimeColumns guess(
      Map<Integer, ColumnSetting> settings, DateOrderGuess.@Nullable Result hint, AllDates all)
      throws IOException {
    int first = firstColumn(settings);
    Shares found = shares.get(first);
    Kind kind = kind(first, found);
    int second = kind == Kind.TEXT && found.full() < 0.5 ? clockColumn(settings, first) : -1;
    String column = words.get(first).name(first, texts);
    guesses.add(
        texts.guess(
            "time",
            switch (kind) {
              case EPOCH_SECONDS -> texts.say("column.seconds", column);
              case EPOCH_MILLIS -> texts.say("column.millis", column);
              case TEXT -> second < 0 ? column : texts.say("column.clock", column, second + 1);
            },
            settings.containsKey(first) ? texts.setBy(Setting.COLUMNS) : texts.say("why.times")));
    if (kind != Kind.TEXT) {
      return new TimeColumns(kind, first, -1, DateOrder.YMD, ZoneOffset.UTC, false);
    }
    DateOrder order = order(first, hint, all);
    ZoneId zone = zone(first, second, found);
    // The order of rows decides nothing where each cell has its offset.
    boolean newestFirst = !found.offset() && isNewestFirst(first, second, order);
    if (newestFirst) {
      guesses.add(texts.guess("rows", texts.say("rows.newest"), texts.say("why.newest-first")));
    }
    return new TimeColumns(kind, first, second, order, zone, newestFirst);
  }

  private static int set(Map<Integer, ColumnSetting> settings, ColumnSetting.Role role) {
    return settings.entrySet().stream()
        .filter(each -> each.getValue().role() == role)
        .map(Map.Entry::getKey)
        .min(Integer::compare)
        .orElse(-1);
  }

  private int firstColumn(Map<Integer, ColumnSetting> settings) {
    int set = set(settings, ColumnSetting.Role.TIME);
    if (set >= 0) {
      return set;
    }
    int best = -1;
    double bestScore = 0;
    for (int i = 0; i < shares.size(); i++) {
      double score = settings.containsKey(i) ? 0 : score(shares.get(i), words.get(i));
      if (score > bestScore) {
        best = i;
        bestScore = score;
      }
    }
    if (best < 0) {
      throw texts.refusal(
          "no-time-column",
          texts.of(Setting.COLUMNS, "1=time"),
          ColumnSetting.numbered(table.headers()));
    }
    return best;
  }

  /** Prefers an offset in the cells, then a date with a time, then a date, then a number. */
  private static double score(Shares column, ColumnWords words) {
    double score = 0;
    if (column.full() >= 0.5) {
      score = column.offset() ? 50 : 40;
    } else if (column.date() >= 0.5) {
      score = 20;
    } else if (column.epoch() >= 0.5 && words.quantity() == null) {
      score = 10;
    }
    return score > 0 && words.namesTime() ? score + 5 : score;
  }

  private Kind kind(int column, Shares found) {
    if (found.epoch() < 0.5) {
      return Kind.TEXT;
    }
    long seconds = table.rows().stream().filter(row -> Epoch.isSeconds(row.get(column))).count();
    return seconds * 2 > table.rows().size() ? Kind.EPOCH_SECONDS : Kind.EPOCH_MILLIS;
  }

  private int clockColumn(Map<Integer, ColumnSetting> settings, int first) {
    int set = set(settings, ColumnSetting.Role.CLOCK);
    for (int i = 0; i < shares.size() && set < 0; i++) {
      set = i != first && shares.get(i).clock() >= 0.5 ? i : -1;
    }
    return set;
  }

  private DateOrder order(int column, DateOrderGuess.@Nullable Result hint, AllDates all)
      throws IOException {
    DateOrder set = options.dateOrder();
    if (set != null) {
      guesses.add(texts.guess("date-order", set.words(texts), texts.setBy(Setting.DATE_ORDER)));
      return set;
    }
    String example = table.rows().get(0).get(column);
    boolean dated = text.read(example) && text.hasDate;
    if (dated && text.digits[0] == 4) {
      guesses.add(
          texts.guess("date-order", DateOrder.YMD.words(texts), texts.say("why.year-first")));
      return DateOrder.YMD;
    }
    if (dated && text.monthPart >= 0) {
      guesses.add(texts.guess("date-order", texts.say("order.word"), texts.say("why.month-word")));
      return DateOrder.DMY;
    }
    DateOrderGuess guess = new DateOrderGuess(options.latest());
    table.rows().stream()
        .map(row -> row.get(column))
        .filter(cell -> text.read(cell) && text.hasDate)
        .forEach(cell -> guess.add(text, cell));
    DateOrderGuess.Result result = guess.result();
    if (result == null) {
      DateOrderGuess whole = new DateOrderGuess(options.latest());
      all.addTo(whole, column);
      result = whole.result();
    }
    if (result == null && example.matches("\\s*\\d{1,2}\\.\\d{1,2}\\..*")) {
      result = new DateOrderGuess.Result(DateOrder.DMY, "points", "");
    }
    result = result == null ? hint : result;
    if (result == null) {
      throw texts.refusal("date-order", example, texts.of(Setting.DATE_ORDER));
    }
    guesses.add(texts.guess("date-order", result.order().words(texts), result.words(texts)));
    return result.order();
  }

  private ZoneId zone(int first, int second, Shares found) {
    if (found.offset()) {
      guesses.add(texts.guess("zone", texts.say("zone.cells"), texts.say("why.offset")));
    }
    ZoneId set = options.zone();
    if (set != null) {
      guesses.add(texts.guess("zone", set.getId(), texts.setBy(Setting.ZONE)));
      return set;
    }
    ZoneId named = namedZone(words.get(first).header());
    if (named == null && second >= 0) {
      named = namedZone(words.get(second).header());
    }
    for (List<String> line : table.preamble()) {
      named = named == null ? namedZone(String.join(" ", line)) : named;
    }
    if (named != null) {
      guesses.add(texts.guess("zone", named.getId(), texts.say("why.zone-named")));
      return named;
    }
    if (!found.offset()) {
      guesses.add(
          texts.guess("zone", options.defaultZone().getId(), texts.say("why.zone-of-service")));
    }
    return options.defaultZone();
  }

  private static @Nullable ZoneId namedZone(String line) {
    Matcher zone = ZONE.matcher(line);
    if (!zone.find()) {
      return null;
    }
    String offset = zone.group(1);
    if (offset == null) {
      return ZoneOffset.UTC;
    }
    String plain = offset.replace('\u2212', '-').replace(":", "");
    String digits = plain.substring(1);
    String hours = digits.length() > 2 ? digits.substring(0, digits.length() - 2) : digits;
    String minutes = digits.length() > 2 ? digits.substring(digits.length() - 2) : "00";
    int total = Integer.parseInt(hours) * 60 + Integer.parseInt(minutes);
    return total > 18 * 60
        ? null
        : ZoneOffset.ofTotalSeconds((plain.charAt(0) == '-' ? -total : total) * 60);
  }

  private boolean isNewestFirst(int first, int second, DateOrder order) {
    long start = Long.MAX_VALUE;
    long end = Long.MAX_VALUE;
    for (List<String> row : table.rows()) {
      if (text.read(row.get(first)) && order.epochDay(text) != DateOrder.NO_DATE) {
        long ms = order.epochDay(text) * 86_400_000 + text.dayMs;
        if (second >= 0) {
          ms += text.read(row.get(second)) ? text.dayMs : 0;
        }
        start = start == Long.MAX_VALUE ? ms : start;
        end = ms;
      }
    }
    return end < start;
  }
}
