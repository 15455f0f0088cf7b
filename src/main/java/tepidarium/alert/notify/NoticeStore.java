package tepidarium.alert.notify;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Keeps notices and the outbox. What a method wrote has reached the disk when it returns. */
public interface NoticeStore {
  /** How far each concern was told, by its key. */
  Map<String, NotificationState> told();

  /** Notes how far concerns were told, and forgets others. */
  void tell(Collection<NotificationState> told, Set<String> forgotten);

  /** Keeps a notice, its deliveries and how far its concerns are told with it, all or nothing. */
  void add(Notice notice, List<String> notifiers, Collection<NotificationState> told);

  /** Deliveries that wait and whose time has come, the oldest first. */
  List<Delivery> due(Instant now);

  void update(Delivery delivery);

  /**
   * The newest deliveries, newest first.
   *
   * @param state those in this state only; null for all
   */
  List<Delivery> newest(Delivery.@Nullable State state, int most);

  /** How the deliveries of each notifier stand, by its name. */
  Map<String, Tally> tally();

  /**
   * How the deliveries of one notifier stand.
   *
   * @param failed those given up, among the ones still kept
   * @param lastDeliveredAt null when there was none
   * @param lastFailedAt when one was last given up; null when there was none
   * @param trouble the words of the one that has waited longest after an attempt; null for none
   */
  record Tally(
      long waiting,
      long failed,
      @Nullable Instant lastDeliveredAt,
      @Nullable Instant lastFailedAt,
      @Nullable String trouble) {
    /** Nothing was ever sent. */
    public static final Tally NOTHING = new Tally(0, 0, null, null, null);
  }

  /** The newest trouble of each kind. */
  List<Trouble> troubles();

  /** Keeps a trouble in place of the one of its kind. */
  void put(Trouble trouble);
}
