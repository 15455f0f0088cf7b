package tepidarium.alert;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Describes an alert in one sentence. */
public final class AlertText {
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);

  private static final String WAS_SILENT = "silent: a sensor in it was not heard";

  private AlertText() {}

  /**
   * Builds the sentence.
   *
   * @param containerName the container's name as the grower gave it
   * @param zone time zone for displayed times
   */
  public static String of(Alert alert, String containerName, ZoneId zone) {
    String since = WHEN.format(alert.since().atZone(zone));
    String what =
        alert.kind() == AlertKind.SILENT && !alert.active()
            ? WAS_SILENT
            : alert.kind().phrase(number(alert.limit()));
    String worst = worst(alert, zone);
    return alert.active()
        ? containerName + " has been " + what + " since " + since + worst + "."
        : containerName + " was " + what + " from " + since + worst + "; it is back to normal.";
  }

  /** The worst value, or the predicted time. */
  private static String worst(Alert alert, ZoneId zone) {
    return switch (alert.kind()) {
      case SILENT -> "";
      case FAULTY -> alert.detail() == null ? "" : ": " + alert.detail();
      case HEADING_COLD, HEADING_HOT ->
          alert.forecastAt() == null || !alert.active()
              ? ""
              : ", and outside at about " + WHEN.format(alert.forecastAt().atZone(zone));
      default -> ", " + number(alert.worst()) + " " + alert.kind().unit() + " at worst";
    };
  }

  static String number(double value) {
    return String.format(Locale.ROOT, "%.1f", value).replaceAll("\\.0$", "");
  }
}
