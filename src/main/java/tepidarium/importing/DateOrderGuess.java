package tepidarium.importing;

import java.time.Instant;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Reading;

/**
 * Guesses the order of day, month and year. An order is excluded by a date that does not exist or
 * lies before 2010 or in the future. Of the other orders, the one wins whose rows follow each other
 * at least four times as closely. Not thread-safe.
 */
final class DateOrderGuess {
  private static final DateOrder[] ORDERS = DateOrder.values();
  private static final long DAY_MS = TimeUnit.DAYS.toMillis(1);
  private static final int CLOSER = 4;

  private final long earliestDay = Reading.EARLIEST.toEpochMilli() / DAY_MS;
  private final long latestDay;
  private final long[] impossible = new long[ORDERS.length];
  private final String[] example = {"", "", ""};
  private final double[] steps = new double[ORDERS.length];
  private final long[] last = {Long.MIN_VALUE, Long.MIN_VALUE, Long.MIN_VALUE};

  /**
   * An order and the reason for it.
   *
   * @param reason key of its text
   * @param example a date of the file that decides; empty where none does
   */
  record Result(DateOrder order, String reason, String example) {
    String words(ImportTexts texts) {
      return texts.say("why." + reason, example);
    }
  }

  DateOrderGuess(Instant latest) {
    latestDay = latest.toEpochMilli() / DAY_MS + 1;
  }

  void add(DateTimeText text, String cell) {
    for (int i = 0; i < ORDERS.length; i++) {
      long day = ORDERS[i].epochDay(text);
      if (day < earliestDay || day > latestDay) {
        impossible[i]++;
        example[i] = cell;
      } else {
        long ms = day * DAY_MS + text.dayMs;
        steps[i] += last[i] == Long.MIN_VALUE ? 0 : Math.abs(ms - last[i]);
        last[i] = ms;
      }
    }
  }

  /** The order that the dates allow; null if they allow several. */
  @Nullable Result result() {
    int best = 0;
    for (int i = 1; i < ORDERS.length; i++) {
      boolean better =
          impossible[i] < impossible[best]
              || (impossible[i] == impossible[best] && steps[i] < steps[best]);
      best = better ? i : best;
    }
    for (int i = 0; i < ORDERS.length; i++) {
      boolean asGood = i != best && impossible[i] == impossible[best];
      if (asGood && (steps[i] == steps[best] || steps[best] * CLOSER > steps[i])) {
        return null;
      }
    }
    int rival = ORDERS[best] == DateOrder.DMY ? 1 : 0;
    return new Result(
        ORDERS[best], impossible[rival] > impossible[best] ? "no-date" : "closest", example[rival]);
  }
}
