package tepidarium.alert;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Records that a person took an alert kind out of service for one container. It raises no alerts
 * until it is back in service.
 *
 * @param reason reason given by that person; null if none
 */
public record OutOfService(Instant at, String by, @Nullable String reason) {}
