package tepidarium.heat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import tepidarium.reading.Span;

/**
 * The whole hours of a span, each with its local day and night. In a time zone with an offset of
 * half an hour, an hour belongs to the local hour in which it begins.
 */
public final class LocalHours {
  public static final long HOUR_MS = 3_600_000;

  /**
   * The night lasts from 22 to 6 o'clock and belongs to the day on which it ends. Common practice,
   * no source.
   */
  public static final int NIGHT_FROM = 22;

  public static final int NIGHT_TO = 6;

  private final long firstMs;
  private final int[] hourOfDay;
  private final int[] day;
  private final int[] night;
  private final int days;

  private LocalHours(long firstMs, int count, ZoneId zone) {
    this.firstMs = firstMs;
    this.hourOfDay = new int[count];
    this.day = new int[count];
    this.night = new int[count];
    LocalDate origin = LocalDateTime.ofInstant(start(0), zone).toLocalDate();
    for (int i = 0; i < count; i++) {
      LocalDateTime local = LocalDateTime.ofInstant(start(i), zone);
      int hour = local.getHour();
      hourOfDay[i] = hour;
      day[i] = (int) ChronoUnit.DAYS.between(origin, local.toLocalDate());
      night[i] = hour >= NIGHT_FROM ? day[i] + 1 : hour < NIGHT_TO ? day[i] : -1;
    }
    this.days = count == 0 ? 0 : day[count - 1] + 2;
  }

  /** The whole UTC hours in the span, without partial hours at its ends. */
  public static LocalHours of(Span span, ZoneId zone) {
    long first = -Math.floorDiv(-span.fromMs(), HOUR_MS) * HOUR_MS;
    long end = Math.floorDiv(span.toMs(), HOUR_MS) * HOUR_MS;
    int count = (int) Math.max(0, (end - first) / HOUR_MS);
    return new LocalHours(first, count, zone);
  }

  private Instant start(int index) {
    return Instant.ofEpochMilli(firstMs + index * HOUR_MS);
  }

  public int count() {
    return hourOfDay.length;
  }

  /** The whole hours as a span. */
  public Span span() {
    return Span.ofMillis(firstMs, firstMs + count() * HOUR_MS);
  }

  /** The index of the hour that begins at an instant; −1 if there is none. */
  int indexOf(long startMs) {
    long index = (startMs - firstMs) / HOUR_MS;
    boolean exact = (startMs - firstMs) % HOUR_MS == 0;
    return exact && index >= 0 && index < count() ? (int) index : -1;
  }

  int hourOfDay(int index) {
    return hourOfDay[index];
  }

  /** The local day, counted from the first one. */
  int day(int index) {
    return day[index];
  }

  /** The day on which the night of an hour ends; −1 if the hour is not in the night. */
  int night(int index) {
    return night[index];
  }

  /** The number of days, including the day after the last evening. */
  int days() {
    return days;
  }

  /** A new column with NaN for each hour. */
  double[] column() {
    double[] column = new double[count()];
    Arrays.fill(column, Double.NaN);
    return column;
  }
}
