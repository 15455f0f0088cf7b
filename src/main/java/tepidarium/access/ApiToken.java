package tepidarium.access;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A token with which a program uses the API.
 *
 * @param id number that no other token ever has
 * @param name what the token is for
 * @param hash hash of the token, see {@link Secret}
 * @param usedAt time of the latest request, at most {@link Sessions#WRITE_PERIOD} old in the store;
 *     null if it was never used
 */
public record ApiToken(
    long id,
    String name,
    Role role,
    String hash,
    Instant createdAt,
    Instant endsAt,
    @Nullable Instant usedAt) {

  boolean isOver(Instant now) {
    return !now.isBefore(endsAt);
  }

  ApiToken withId(long newId) {
    return new ApiToken(newId, name, role, hash, createdAt, endsAt, usedAt);
  }

  ApiToken usedAgain(Instant now) {
    return new ApiToken(id, name, role, hash, createdAt, endsAt, now);
  }

  /** Leaves out the hash, because this text may be logged. */
  @Override
  public String toString() {
    return "ApiToken[" + id + ", " + role + ']';
  }
}
