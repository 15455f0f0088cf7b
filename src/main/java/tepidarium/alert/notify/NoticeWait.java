package tepidarium.alert.notify;

import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Why an alert was not announced yet.
 *
 * @param until when the reason ends; null if that is not known, or if it will not be announced
 */
public record NoticeWait(Reason reason, @Nullable Instant until) {
  /** The reason. */
  public enum Reason {
    /** Somebody acknowledged it before its notice; it will not be announced. */
    ACKNOWLEDGED,
    /** It is paused. */
    PAUSED,
    /** Quiet hours for its priority. */
    QUIET,
    /** Further alerts are collected for one notice. */
    COLLECTING,
    /** A notice of its kind was sent recently; the next one groups what came since. */
    GROUPED;

    public String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
