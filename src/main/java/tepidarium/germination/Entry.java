package tepidarium.germination;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * One entry in the journal of a sowing. Entries are never changed or removed. A correction is a new
 * entry that names the entry it replaces and the reason.
 *
 * @param at time of the action, in whole milliseconds
 * @param recordedAt time at which the entry was recorded, in whole milliseconds
 * @param by who recorded it
 * @param corrects entry that this one replaces or withdraws; null if none
 * @param reason reason of the correction; required with {@code corrects}
 * @param request digest of the request that added it; null if not known
 */
public record Entry(
    UUID id,
    long sowing,
    Instant at,
    Act act,
    Instant recordedAt,
    @Nullable String by,
    @Nullable String remark,
    @Nullable UUID corrects,
    @Nullable String reason,
    @Nullable String request) {
  public Entry {
    at = at.truncatedTo(ChronoUnit.MILLIS);
    recordedAt = recordedAt.truncatedTo(ChronoUnit.MILLIS);
    by = Require.note("by", by, 60);
    remark = Require.note("remark", remark, 2_000);
    reason =
        corrects == null
            ? Require.note("reason", reason, 300)
            : Require.text("reason", reason, 300);
    if (id.equals(corrects)) {
      throw new IllegalArgumentException("an entry cannot correct itself");
    }
    if (corrects == null && act instanceof Act.Withdrawn) {
      throw new IllegalArgumentException("a withdrawal must name the entry that it withdraws");
    }
  }

  /** A copy without the request digest. */
  public Entry withoutRequest() {
    return new Entry(id, sowing, at, act, recordedAt, by, remark, corrects, reason, null);
  }

  /** A phrase for messages, such as "the check of group 3-1 at 2026-03-10T09:00:00Z". */
  String words() {
    String name =
        switch (act.kind()) {
          case "sown" -> "the sowing";
          case "moved" -> "the move";
          case "checked" -> "the check";
          case "survival" -> "the count of seedlings";
          case "named" -> "the name";
          default -> "the withdrawal";
        };
    return act.group() == null
        ? name + " at " + at
        : name + " of group " + act.group() + " at " + at;
  }
}
