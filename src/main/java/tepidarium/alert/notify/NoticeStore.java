package tepidarium.alert.notify;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Stores notices, the outbox of deliveries, and the notification state of each alert. Each write is
 * durable when the method returns.
 */
public interface NoticeStore {
  /** The notification state of each alert subject, by key. */
  Map<String, NotificationState> notificationStates();

  /** Saves the changed notification states and deletes the states with the removed keys. */
  void saveStates(Collection<NotificationState> changed, Set<String> removedKeys);

  /** Stores a notice, its deliveries and the resulting notification states in one transaction. */
  void add(Notice notice, List<String> notifiers, Collection<NotificationState> states);

  /** When the newest notice of a kind was created; empty if none is stored. */
  Optional<Instant> newestOf(NoticeKind kind);

  /** Waiting deliveries that are due and not claimed, oldest first. */
  List<Delivery> due(Instant now);

  /**
   * Claims a waiting delivery for the attempt that begins now.
   *
   * @return false if it does not wait, or is claimed already
   */
  boolean claim(long delivery, Instant now);

  /** Stores the state of a delivery and ends its claim. */
  void update(Delivery delivery);

  /**
   * Makes each claimed delivery {@link Delivery.State#PERHAPS_SENT}, settled when it was claimed.
   *
   * @return number of them
   */
  int settleClaimed();

  /**
   * The newest deliveries, newest first.
   *
   * @param state only deliveries in this state; null for all
   */
  List<Delivery> newest(Delivery.@Nullable State state, int limit);

  /** The delivery statistics of each notifier, by name. */
  Map<String, DeliveryCounts> deliveryCounts();

  /**
   * The delivery statistics of one notifier.
   *
   * @param failed number of deliveries given up, among those still stored
   * @param lastDeliveredAt null if none was delivered
   * @param lastFailedAt when a delivery was last given up; null if none was
   * @param trouble last error of the delivery that has been retried longest; null for none
   */
  record DeliveryCounts(
      long waiting,
      long failed,
      @Nullable Instant lastDeliveredAt,
      @Nullable Instant lastFailedAt,
      @Nullable String trouble) {
    /** No deliveries. */
    public static final DeliveryCounts NOTHING = new DeliveryCounts(0, 0, null, null, null);
  }

  /** The newest service trouble of each kind. */
  List<Trouble> troubles();

  /** Stores a trouble; replaces the one of the same kind. */
  void put(Trouble trouble);
}
