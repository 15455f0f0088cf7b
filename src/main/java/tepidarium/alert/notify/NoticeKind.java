package tepidarium.alert.notify;

import java.util.Locale;

/** The reason for a notice. */
public enum NoticeKind {
  /** An alert was raised. */
  RAISED,
  /** An alert has returned. */
  RETURNED,
  /** An alert is still active. */
  REMINDER,
  /** An alert was not acknowledged in time; sent to the second address only. */
  ESCALATION,
  /** The state of everything, once a day. */
  SUMMARY,
  /** A test of the delivery. */
  TEST;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}
