package tepidarium.sites;

import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What is wrong with a site, the worst first. A site has the first that holds. */
public enum SiteTrouble {
  UNREACHABLE("unreachable", Level.DOWN),
  REFUSED("refused", Level.DOWN),
  UNREADABLE("unreadable", Level.DOWN),
  NOBODY_WORKS("nobodyWorks", Level.DOWN),
  RECORDS("records", Level.DOWN),
  READINGS("readings", Level.DOWN),
  BROKER("broker", Level.DOWN),
  HIGH_ALERTS("highAlerts", Level.DOWN),
  PART("part", Level.DOWN),
  DISK("disk", Level.ATTENTION),
  NOBODY_WAITS("nobodyWaits", Level.ATTENTION),
  WAITING_WITHOUT_BROKER("waitingWithoutBroker", Level.ATTENTION),
  NOT_ASKED("notAsked", Level.UNKNOWN),
  NONE("none", Level.UP);

  /** The state in one word. */
  public enum Level {
    DOWN,
    ATTENTION,
    UNKNOWN,
    UP
  }

  /** A disk that is full sooner needs somebody. Common practice, no source. */
  private static final Duration DISK_SOON = Duration.ofDays(14);

  private final String key;
  private final Level level;

  SiteTrouble(String key, Level level) {
    this.key = key;
    this.level = level;
  }

  /** The name in the API. */
  public String key() {
    return key;
  }

  public Level level() {
    return level;
  }

  /** What is wrong with a site that answers. */
  static SiteTrouble of(SiteState state) {
    for (SiteTrouble part : List.of(RECORDS, READINGS, BROKER)) {
      if (detail(part, state) != null) {
        return part;
      }
    }
    if (state.highAlerts() > 0) {
      return HIGH_ALERTS;
    }
    if (!state.down().isEmpty()) {
      return PART;
    }
    Double full = state.disk().secondsUntilFull();
    if (full != null && full < DISK_SOON.toSeconds()) {
      return DISK;
    }
    if (state.lease() == null) {
      return NONE;
    }
    if (state.waiting().isEmpty()) {
      return NOBODY_WAITS;
    }
    return state.waiting().stream().anyMatch(SiteState.Waiting::reachesBroker)
        ? NONE
        : WAITING_WITHOUT_BROKER;
  }

  /** Why a part does not work, in the words of the site; null if it works. */
  static @Nullable String detail(SiteTrouble trouble, SiteState state) {
    for (SiteState.Down down : state.down()) {
      if (trouble == PART) {
        return down.part() + ": " + down.detail();
      }
      if (trouble.key.equals(down.part())) {
        return down.detail();
      }
    }
    return null;
  }
}
