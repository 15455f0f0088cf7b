package tepidarium.germination;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * The metadata of a request to add an entry.
 *
 * @param id id chosen by the client, which makes the request idempotent; null for a new id
 * @param request digest of the request; distinguishes a retry from another use of the same id
 * @param at time of the action; null for now
 * @param by who recorded it; null if not stated
 * @param now time of recording
 */
public record Note(
    @Nullable UUID id,
    @Nullable String request,
    @Nullable Instant at,
    @Nullable String by,
    @Nullable String remark,
    Instant now) {}
