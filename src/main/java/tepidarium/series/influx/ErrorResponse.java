package tepidarium.series.influx;

import java.io.IOException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** An error response of the InfluxDB server: HTTP status and message. */
final class ErrorResponse extends IOException {
  private static final long serialVersionUID = 1L;

  private static final Pattern DROPPED = Pattern.compile(" dropped=(\\d+)$");

  private final int status;

  ErrorResponse(int status, String message) {
    super(message);
    this.status = status;
  }

  String message() {
    return String.valueOf(getMessage());
  }

  /** Whether a retry cannot help, because the request is invalid. */
  boolean isPermanent() {
    return status == 400 || status == 413 || status == 422;
  }

  /** For several statements on a missing database, InfluxDB reports only "not executed". */
  boolean isMissingDatabase() {
    return message().contains("database not found") || message().equals("not executed");
  }

  /**
   * Number of points of a partly written batch that the server reports as dropped for this error; 0
   * if it does not report a number. Points may have been dropped for other errors too.
   */
  int dropped() {
    Matcher matcher = DROPPED.matcher(message());
    return matcher.find() ? Integer.parseInt(matcher.group(1)) : 0;
  }

  /** The error message without the parts about the whole batch. */
  String reason() {
    String message = DROPPED.matcher(message()).replaceFirst("");
    return "InfluxDB rejects the reading: " + message.replaceFirst("^partial write: ", "");
  }
}
