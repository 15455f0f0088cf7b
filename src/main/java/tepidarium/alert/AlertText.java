package tepidarium.alert;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Says in one sentence what an alert is about. */
public final class AlertText {
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);

  private static final String STILL_SILENT = "silent: a sensor in it has not been heard";
  private static final String WAS_SILENT = "silent: a sensor in it was not heard";
  private static final double MS_PER_MINUTE = 60_000;

  private AlertText() {}

  /**
   * A sentence for the grower.
   *
   * @param containerName the container's name as the grower gave it
   * @param zone in which to tell the time
   */
  public static String of(Alert alert, String containerName, ZoneId zone) {
    String since = WHEN.format(start(alert).atZone(zone));
    String what =
        switch (alert.kind()) {
          case COLD -> "colder than " + number(alert.limit()) + " °C";
          case HOT -> "hotter than " + number(alert.limit()) + " °C";
          case LIGHT -> "brighter than " + number(alert.limit()) + " lux";
          case DRY -> "drier than " + number(alert.limit()) + " %";
          case SILENT -> alert.active() ? STILL_SILENT : WAS_SILENT;
        };
    String worst =
        alert.kind() == AlertKind.SILENT
            ? ""
            : ", " + number(alert.worst()) + " " + alert.kind().unit() + " at worst";
    return alert.active()
        ? containerName + " has been " + what + " since " + since + worst + "."
        : containerName + " was " + what + " from " + since + worst + "; it has returned.";
  }

  /** Silence counts from the last word, not from when it had lasted too long. */
  private static Instant start(Alert alert) {
    return alert.kind() == AlertKind.SILENT
        ? alert.since().minusMillis(Math.round(alert.limit() * MS_PER_MINUTE))
        : alert.since();
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value).replaceAll("\\.0$", "");
  }
}
