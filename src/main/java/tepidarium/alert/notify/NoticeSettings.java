package tepidarium.alert.notify;

import java.time.Duration;
import java.time.ZoneId;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;

/**
 * When somebody is told.
 *
 * @param collect how long to wait for more before the first notice goes out
 * @param spacing how long after that until the next one about the same topic goes out; what comes
 *     in between goes together
 * @param escalateAfter how long nobody may acknowledge before the second address is told; null for
 *     never
 * @param remindAfter how long it may last before it is told again; null for never
 * @param tellReturned whether it is told when all is back to normal
 * @param quietHours for each priority that has them
 * @param zone where the quiet hours are
 * @param giveUpAfter how long to try to deliver a notice
 */
public record NoticeSettings(
    Duration collect,
    Duration spacing,
    @Nullable Duration escalateAfter,
    @Nullable Duration remindAfter,
    boolean tellReturned,
    Map<Priority, QuietHours> quietHours,
    ZoneId zone,
    Duration giveUpAfter) {

  public NoticeSettings {
    quietHours = Map.copyOf(quietHours);
  }
}
