package tepidarium.ingest.mqtt;

import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Detects that the broker has lost the persistent session of this service. Messages that waited in
 * that session are lost. The warning is shown for 24 hours or until the next restart.
 */
final class SessionLoss {
  private static final Logger LOG = LoggerFactory.getLogger(SessionLoss.class);
  private static final Duration SHOWN = Duration.ofDays(1);

  private boolean expected;
  private @Nullable Instant lostAt;

  /** Records that the service was connected to the broker in an earlier run. */
  synchronized void expectSession() {
    expected = true;
  }

  /** Records whether the broker still had the session when the service connected. */
  synchronized void connected(boolean sessionPresent, Instant now) {
    if (expected && !sessionPresent) {
      lostAt = now;
      LOG.warn("{}", message(now));
    }
    expected = true;
  }

  /** Returns a warning to append to the state of the link; empty if no session was lost. */
  synchronized String warning(Instant now) {
    Instant at = lostAt;
    return at == null || !now.isBefore(at.plus(SHOWN)) ? "" : "; " + message(at);
  }

  private static String message(Instant at) {
    return "at "
        + at.truncatedTo(ChronoUnit.SECONDS)
        + " the broker had no session of this service: messages published while the service was not"
        + " connected are lost, unless this is a new broker";
  }
}
