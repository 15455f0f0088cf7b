package tepidarium.alert.notify;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What became of the notices about one alert.
 *
 * @param announcedAt when it was announced; null if it was not
 * @param waiting why it is not announced yet; null if it was, or if it is over
 * @param deliveries stored deliveries of notices about it, newest first
 */
public record AlertNotices(
    long alert,
    @Nullable Instant announcedAt,
    @Nullable NoticeWait waiting,
    List<Delivery> deliveries) {
  public AlertNotices {
    deliveries = List.copyOf(deliveries);
  }
}
