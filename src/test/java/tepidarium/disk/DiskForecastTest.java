package tepidarium.disk;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** When the disk is full, from the sizes of the data folder on the last days. */
class DiskForecastTest {
  private static final LocalDate FIRST = LocalDate.of(2026, 3, 1);
  private static final long MEBI = 1L << 20;

  private static List<DailySize> sizes(int days, LongUnaryOperator bytes) {
    List<DailySize> sizes = new ArrayList<>();
    for (int day = 0; day < days; day++) {
      sizes.add(new DailySize(FIRST.plusDays(day), bytes.applyAsLong(day)));
    }
    return sizes;
  }

  private static String words(List<DailySize> sizes, long freeBytes) {
    return DiskForecast.of(sizes, freeBytes, sizes.get(sizes.size() - 1).day()).words();
  }

  /** A mebibyte a day; free mebibytes = days. */
  @ParameterizedTest
  @CsvSource({
    "0, less than a day",
    "1, about 1 day",
    "13, about 13 days",
    "14, about 2 weeks",
    "62, about 9 weeks",
    "64, about 2 months",
    "426, about 14 months",
    "729, about 24 months",
    "732, about 2 years",
    "3652, about 10 years",
    "3653, more than 10 years"
  })
  void theTimeLeftIsFreeSpaceByGrowth(int days, String expected) {
    assertEquals(
        "full in " + expected + " at this rate", words(sizes(30, day -> day * MEBI), days * MEBI));
  }

  @Test
  void aFolderThatDoesNotGrowFillsNoDisk() {
    assertEquals(
        "full in more than 10 years at this rate", words(sizes(30, day -> 500 * MEBI), MEBI));
    assertEquals(
        "full in more than 10 years at this rate",
        words(sizes(30, day -> (500 - day) * MEBI), MEBI));
  }

  @Test
  void aSingleStepHardlyChangesIt() {
    String steady = "full in about 14 months at this rate";
    assertEquals(
        steady, words(sizes(30, day -> day * MEBI + (day > 8 ? 900 * MEBI : 0)), 420 * MEBI));
    assertEquals(
        steady, words(sizes(30, day -> day * MEBI + (day < 22 ? 900 * MEBI : 0)), 420 * MEBI));
  }

  @Test
  void onTheFirstDaysItCannotBeTold() {
    String until8March = "when it will be full cannot be told before 2026-03-08";
    assertEquals(until8March, words(sizes(1, day -> MEBI), MEBI));
    assertEquals(until8March, words(sizes(7, day -> day * MEBI), MEBI));
    assertEquals("full in about 1 day at this rate", words(sizes(8, day -> day * MEBI), MEBI));
    assertEquals(until8March, DiskForecast.of(List.of(), MEBI, FIRST).words());
  }

  /** Six sizes are needed, however long the machine was off between them. */
  @Test
  void fewDaysInALongTimeAreNotEnough() {
    List<DailySize> few =
        List.of(new DailySize(FIRST, MEBI), new DailySize(FIRST.plusDays(20), 2 * MEBI));
    assertEquals("when it will be full cannot be told before 2026-03-25", words(few, MEBI));
  }

  @Test
  void onlyTheLast30DaysCount() {
    List<DailySize> sizes = sizes(90, day -> day < 50 ? 10 * day * MEBI : 500 * MEBI + day * MEBI);
    assertEquals("full in about 14 months at this rate", words(sizes, 420 * MEBI));
  }

  @Test
  void daysAfterTodayDoNotCount() {
    List<DailySize> sizes = sizes(20, day -> day * MEBI);
    sizes.add(new DailySize(FIRST.plusYears(3), 5));
    assertEquals(
        "full in about 14 months at this rate",
        DiskForecast.of(sizes, 420 * MEBI, FIRST.plusDays(19)).words());
  }
}
