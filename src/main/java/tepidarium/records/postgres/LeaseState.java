package tepidarium.records.postgres;

import java.time.Duration;
import java.time.Instant;

/**
 * The lease that this service holds.
 *
 * @param machine name of this machine
 * @param epoch number of this taking
 * @param since when it was taken, by the clock of the database
 * @param renewedAgo time since it was last renewed
 */
public record LeaseState(String machine, long epoch, Instant since, Duration renewedAgo) {}
