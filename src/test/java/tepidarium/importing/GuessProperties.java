package tepidarium.importing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import net.jqwik.api.Assume;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;

/** Values and instants survive being written in a shape and guessed back. */
class GuessProperties {
  private static final int ROWS = 40;
  private static final long FIRST_DAY = LocalDate.of(2012, 1, 1).toEpochDay();

  /** Forms of dates with their times of day. */
  enum Dates {
    ISO("yyyy-MM-dd'T'HH:mm:ss"),
    YEAR_FIRST("yyyy/MM/dd HH:mm:ss"),
    POINTS("dd.MM.yyyy HH:mm:ss"),
    DAY_FIRST("dd/MM/yyyy HH:mm:ss"),
    MONTH_FIRST("MM/dd/yy hh:mm:ss a"),
    NAMED("dd-MMM-yyyy HH:mm:ss"),
    COMPACT("yyyyMMdd'T'HH:mm:ss");

    private final DateTimeFormatter format;

    Dates(String pattern) {
      format = DateTimeFormatter.ofPattern(pattern, Locale.ENGLISH);
    }
  }

  /** Delimiters with their decimal separators. */
  enum Numbers {
    COMMA_POINT(",", "."),
    SEMICOLON_COMMA(";", ","),
    SEMICOLON_POINT(";", "."),
    TAB_COMMA("\t", ","),
    TAB_POINT("\t", ".");

    private final String delimiter;
    private final String decimal;

    Numbers(String delimiter, String decimal) {
      this.delimiter = delimiter;
      this.decimal = decimal;
    }
  }

  /**
   * The first row is at 23:30 local time and rows are at least a minute apart, so 40 rows are on
   * two days. A file that starts with a row in a repeated hour cannot tell which of both it is.
   */
  @Property(tries = 400)
  void aTableIsGuessedBack(
      @ForAll Dates dates,
      @ForAll Numbers numbers,
      @ForAll boolean twoColumns,
      @ForAll boolean newestFirst,
      @ForAll @LongRange(min = 0, max = 4_500) long day,
      @ForAll @IntRange(min = 60, max = 3_600) int stepSeconds,
      @ForAll @IntRange(min = -400, max = 900) int tenths) {
    ZoneId zone = Imported.BERLIN;
    Instant start = LocalDate.ofEpochDay(FIRST_DAY + day).atTime(23, 30).atZone(zone).toInstant();
    LocalDateTime end = LocalDateTime.ofInstant(start.plusSeconds((ROWS - 1L) * stepSeconds), zone);
    Assume.that(!newestFirst || zone.getRules().getValidOffsets(end).size() == 1);
    List<String> rows = new ArrayList<>();
    List<Instant> instants = new ArrayList<>();
    for (int i = 0; i < ROWS; i++) {
      Instant at = start.plusSeconds((long) i * stepSeconds);
      String value = ((tenths + i) / 10 + numbers.decimal + Math.abs((tenths + i) % 10));
      String time = dates.format.format(at.atZone(zone));
      rows.add(
          (twoColumns ? time.replaceFirst("[T ]", numbers.delimiter) : time)
              + numbers.delimiter
              + value
              + numbers.delimiter
              + (10 + i)
              + numbers.decimal
              + 25);
      instants.add(at);
    }
    if (newestFirst) {
      java.util.Collections.reverse(rows);
      java.util.Collections.reverse(instants);
    }
    String times = twoColumns ? "Date" + numbers.delimiter + "Clock" : "Time";
    String header = String.join(numbers.delimiter, times, "Temperature °C", "Humidity %");
    Imported file = Imported.of(header + "\r\n" + String.join("\r\n", rows) + "\r\n");
    assertEquals(List.of(), file.bad);
    assertEquals(instants, file.readings.stream().map(Reading::at).toList());
    for (int i = 0; i < ROWS; i++) {
      int row = newestFirst ? ROWS - 1 - i : i;
      int whole = (tenths + row) / 10;
      double expected = Double.parseDouble(whole + "." + Math.abs((tenths + row) % 10));
      assertEquals(expected, file.readings.get(i).value(Quantity.TEMPERATURE));
      assertEquals(10.25 + row, file.readings.get(i).value(Quantity.HUMIDITY));
    }
  }

  /** Python and spreadsheets write all digits of a double, or an exponent. */
  @Property
  void eachDoubleIsReadBack(@ForAll double value) {
    String text = Double.toString(value);
    assertEquals(value, NumberText.parse(text, '.'));
    assertEquals(value, NumberText.parse(text.replace('.', ','), ','));
    assertEquals(value, NumberText.parse(text.toLowerCase(Locale.ROOT).replace("e-", "E-0"), '.'));
  }

  @Example
  void longNumbersAreRead() {
    assertEquals(3.8200000000000003, NumberText.parse("3.8200000000000003", '.'));
    assertEquals(1e-05, NumberText.parse("1e-05", '.'));
    for (String wrong : List.of("1e", "e5", "1e5x", "1.2.3e4", "--3.82000000000000031", "1e1000")) {
      assertEquals(Double.NaN, NumberText.parse(wrong, '.'), wrong);
    }
  }

  /** The result is the double that Java reads from the same digits. */
  @Property
  void aNumberIsTheNearestDouble(
      @ForAll @LongRange(min = -999_999_999_999L, max = 999_999_999_999L) long digits,
      @ForAll @IntRange(min = 0, max = 10) int decimals) {
    String point = java.math.BigDecimal.valueOf(digits, decimals).toPlainString();
    assertEquals(Double.parseDouble(point), NumberText.parse(point, '.'));
    assertEquals(Double.parseDouble(point), NumberText.parse(point.replace('.', ','), ','));
  }

  @Property
  void epochTimesAreGuessedBack(
      @ForAll @LongRange(min = 1_262_304_000L, max = 1_790_000_000L) long seconds,
      @ForAll boolean millis) {
    String time = millis ? seconds + "123" : String.valueOf(seconds);
    Imported file = Imported.of("time,lux\n" + time + ",12.5\n");
    assertEquals(
        Instant.ofEpochMilli(seconds * 1000 + (millis ? 123 : 0)), file.readings.get(0).at());
  }

  /** Any instant of a file in local time is found again if its rows are in order. */
  @Property
  void localTimesInOrderAreUniqueAcrossClockChanges(
      @ForAll @IntRange(min = 2015, max = 2025) int year,
      @ForAll boolean spring,
      @ForAll @IntRange(min = 1, max = 29) int stepMinutes) {
    ZoneId zone = Imported.BERLIN;
    Instant start = Instant.parse(year + (spring ? "-03-24T22:00:00Z" : "-10-24T22:00:00Z"));
    LocalTimes times = new LocalTimes(zone, false);
    LocalTimes.Previous previous = new LocalTimes.Previous();
    for (long minute = 0; minute < 8 * 24 * 60; minute += stepMinutes) {
      Instant at = start.plusSeconds(minute * 60);
      long local = at.toEpochMilli() + zone.getRules().getOffset(at).getTotalSeconds() * 1000L;
      long found = times.instant(local, previous);
      assertEquals(at.toEpochMilli(), found);
      previous.set(found);
    }
  }
}
