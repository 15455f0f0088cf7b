package tepidarium.backup;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * Decides when the next automatic backup is due and which old ones are to be deleted.
 *
 * @param every interval of backups; null makes none
 * @param keep number of backups to keep, 1 or more
 */
public record BackupSchedule(@Nullable Duration every, int keep) {
  /**
   * After a failure, the next attempt follows after this time, or after the interval if shorter.
   */
  private static final Duration RETRY_AFTER = Duration.ofHours(1);

  public BackupSchedule {
    if (keep < 1) {
      throw new IllegalArgumentException("keep at least one backup, not " + keep);
    }
  }

  /**
   * Returns whether a backup is due. A clock that was set back by more than the interval counts as
   * due too: otherwise no backup would be made for as long as it was set back.
   */
  boolean isDue(BackupState state, Instant now) {
    if (every == null) {
      return false;
    }
    if (state.failedAt() != null) {
      return isPast(state.failedAt(), retryAfter(every), now);
    }
    return state.doneAt() == null || isPast(state.doneAt(), every, now);
  }

  private static boolean isPast(Instant before, Duration wait, Instant now) {
    return Duration.between(before, now).abs().compareTo(wait) >= 0;
  }

  private static Duration retryAfter(Duration every) {
    return every.compareTo(RETRY_AFTER) < 0 ? every : RETRY_AFTER;
  }

  /** Returns when the next backup is due; null for never or before the first one. */
  @Nullable Instant next(BackupState state) {
    if (every == null) {
      return null;
    }
    if (state.failedAt() != null) {
      return state.failedAt().plus(retryAfter(every));
    }
    return state.doneAt() == null ? null : state.doneAt().plus(every);
  }

  /**
   * Returns the backups to delete: the oldest existing ones beyond the number to keep. The newest
   * one is never among them.
   */
  List<BackupState.Made> toDelete(BackupState state, Predicate<BackupState.Made> exists) {
    List<BackupState.Made> existing = new ArrayList<>(state.made());
    existing.removeIf(exists.negate());
    return List.copyOf(existing.subList(0, Math.max(0, existing.size() - keep)));
  }
}
