package tepidarium.importing;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Locale;
import tepidarium.reading.InvalidInput;

/** Order of day, month and year in dates written as numbers. */
public enum DateOrder {
  DMY,
  MDY,
  YMD;

  /** Result for three numbers that are not a date. */
  static final long NO_DATE = Long.MIN_VALUE;

  String words(ImportTexts texts) {
    return texts.say("order." + name().toLowerCase(Locale.ROOT));
  }

  /**
   * Finds an order by its option.
   *
   * @throws InvalidInput unless it is dmy, mdy or ymd
   */
  public static DateOrder of(String name) {
    for (DateOrder order : values()) {
      if (order.name().equals(name.toUpperCase(Locale.ROOT))) {
        return order;
      }
    }
    throw new InvalidInput("the date order is dmy, mdy or ymd, not \"" + name + '"');
  }

  /** The date as days since 1970-01-01; {@link #NO_DATE} if it does not exist. */
  long epochDay(DateTimeText text) {
    if (text.monthPart >= 0) {
      return withMonthName(text);
    }
    return switch (this) {
      case DMY -> day(text.part[2], text.digits[2], text.part[1], text.part[0]);
      case MDY -> day(text.part[2], text.digits[2], text.part[0], text.part[1]);
      case YMD -> day(text.part[0], text.digits[0], text.part[1], text.part[2]);
    };
  }

  /** A year of four digits may be first; otherwise the day is before the year. */
  private static long withMonthName(DateTimeText text) {
    int first = text.monthPart == 0 ? 1 : 0;
    int last = text.monthPart == 2 ? 1 : 2;
    int month = text.part[text.monthPart];
    return text.digits[first] == 4
        ? day(text.part[first], 4, month, text.part[last])
        : day(text.part[last], text.digits[last], month, text.part[first]);
  }

  private static long day(int year, int yearDigits, int month, int day) {
    if ((yearDigits != 2 && yearDigits != 4) || month < 1 || month > 12 || day < 1 || day > 31) {
      return NO_DATE;
    }
    int full = yearDigits == 2 ? 2000 + year : year;
    if (full < 1 || (day > 28 && day > YearMonth.of(full, month).lengthOfMonth())) {
      return NO_DATE;
    }
    return LocalDate.of(full, month, day).toEpochDay();
  }
}
