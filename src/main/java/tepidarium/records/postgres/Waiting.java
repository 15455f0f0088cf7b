package tepidarium.records.postgres;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * Why a service does not own the database yet.
 *
 * @param working name of the machine whose service works; null while the database does not answer
 * @param clockAhead how far the clock of this machine is ahead of the database's, negative if it is
 *     behind, when that keeps it from taking over; otherwise null
 */
public record Waiting(@Nullable String working, @Nullable Duration clockAhead) {}
