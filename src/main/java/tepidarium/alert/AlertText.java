package tepidarium.alert;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Says in one sentence what an alert is about. */
public final class AlertText {
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);

  private static final String STILL_SILENT = "silent: a sensor in it has not been heard";
  private static final String WAS_SILENT = "silent: a sensor in it was not heard";

  private AlertText() {}

  /**
   * A sentence for the grower.
   *
   * @param containerName the container's name as the grower gave it
   * @param zone in which to tell the time
   */
  public static String of(Alert alert, String containerName, ZoneId zone) {
    String since = WHEN.format(alert.since().atZone(zone));
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

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value).replaceAll("\\.0$", "");
  }
}
