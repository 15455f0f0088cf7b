package tepidarium.alert;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A kind of alert that somebody has taken out of service for one container: it raises nothing until
 * it is put back.
 *
 * @param reason in that person's words; null where none was given
 */
public record OutOfService(Instant at, String by, @Nullable String reason) {}
