package tepidarium.germination;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What goes along with every entry.
 *
 * @param id given by whoever sends it, so that it can be sent again without harm; null for a new
 *     one
 * @param request digest of the request, to tell a repetition from another use of the same id
 * @param at when it was done; null for now
 * @param now when it was written down
 */
public record Note(
    @Nullable UUID id,
    @Nullable String request,
    @Nullable Instant at,
    @Nullable String by,
    @Nullable String remark,
    Instant now) {}
