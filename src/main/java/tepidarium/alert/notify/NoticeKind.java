package tepidarium.alert.notify;

import java.util.Locale;

/** Why a notice is sent. */
public enum NoticeKind {
  /** Something is wrong. */
  RAISED,
  /** It is back to normal. */
  RETURNED,
  /** It still lasts. */
  REMINDER,
  /** Nobody has acknowledged it in time; goes to the second address only. */
  ESCALATION,
  /** Somebody tries whether notices arrive. */
  TEST;

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}
