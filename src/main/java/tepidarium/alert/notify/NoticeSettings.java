package tepidarium.alert.notify;

import java.time.Duration;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;

/**
 * The settings that decide when notices are sent.
 *
 * @param collect time to collect further alerts before the first notice is sent
 * @param spacing minimum time between notices on the same topic; alerts in between are grouped
 * @param escalateAfter time without acknowledgement before the second address is notified; null for
 *     never
 * @param remindAfter time between reminders; null for never
 * @param announceReturns whether to send a notice when an alert returns
 * @param quietHours quiet hours by priority
 * @param summaryAt local time of the daily summary; null for none
 * @param zone time zone of the quiet hours and the summary
 * @param giveUpAfter time after which delivery attempts end
 */
public record NoticeSettings(
    Duration collect,
    Duration spacing,
    @Nullable Duration escalateAfter,
    @Nullable Duration remindAfter,
    boolean announceReturns,
    Map<Priority, QuietHours> quietHours,
    @Nullable LocalTime summaryAt,
    ZoneId zone,
    Duration giveUpAfter) {

  public NoticeSettings {
    quietHours = Map.copyOf(quietHours);
  }
}
