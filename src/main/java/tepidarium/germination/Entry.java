package tepidarium.germination;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * One line of the journal of a sowing. Lines are only ever added: a correction names the line that
 * it replaces, and why.
 *
 * @param at when it was done, whole milliseconds
 * @param by who wrote it down
 * @param corrects the entry that this one replaces, or withdraws
 * @param reason why it replaces it
 * @param request digest of the request that brought it; null where none is known
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

  /** The same, whatever request brought it. */
  public Entry withoutRequest() {
    return new Entry(id, sowing, at, act, recordedAt, by, remark, corrects, reason, null);
  }

  /** In words: the check of group 3-1 at 2026-03-10T09:00:00Z. */
  String words() {
    String what =
        switch (act.kind()) {
          case "sown" -> "the sowing";
          case "moved" -> "the move";
          case "checked" -> "the check";
          case "survival" -> "the count of seedlings";
          default -> "the withdrawal";
        };
    return act.group() == null
        ? what + " at " + at
        : what + " of group " + act.group() + " at " + at;
  }
}
