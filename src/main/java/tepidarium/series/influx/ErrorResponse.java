package tepidarium.series.influx;

import java.io.IOException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** An answer of the server that says no, with its words. */
final class ErrorResponse extends IOException {
  private static final long serialVersionUID = 1L;

  private static final Pattern DROPPED = Pattern.compile(" dropped=(\\d+)$");

  private final int status;

  ErrorResponse(int status, String words) {
    super(words);
    this.status = status;
  }

  String words() {
    return String.valueOf(getMessage());
  }

  /**
   * Whether the same points would be refused for ever: the request was at fault, not the server.
   */
  boolean isPermanent() {
    return status == 400 || status == 413 || status == 422;
  }

  /** Of several statements to a database that is missing, InfluxDB says only "not executed". */
  boolean isMissingDatabase() {
    return words().contains("database not found") || words().equals("not executed");
  }

  /**
   * How many points of a partly written batch the server says it has dropped for this one reason;
   * there may be more for another. 0 where it does not say.
   */
  int dropped() {
    Matcher matcher = DROPPED.matcher(words());
    return matcher.find() ? Integer.parseInt(matcher.group(1)) : 0;
  }

  /** The reason without what was said of the batch as a whole. */
  String reason() {
    String words = DROPPED.matcher(words()).replaceFirst("");
    return "InfluxDB refuses it: " + words.replaceFirst("^partial write: ", "");
  }
}
