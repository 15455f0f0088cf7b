package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;
import tepidarium.alert.notify.NotificationState.Stage;

/**
 * Decides which notices are due, from the present alerts and the stored notification states only,
 * so a restart changes nothing. An alert acknowledged before its notice is not announced. A shelved
 * alert is not announced while it is shelved.
 *
 * <p>Alerts that share a cause, such as a power cut, are grouped into one message. A notice of a
 * raised alert also lists the conditions of the same kind that are still in their on-delay ({@link
 * PendingAlert}). This adds no delay, but a listed condition may come back inside before its alert
 * is raised. A return notice waits up to {@link #RETURN_GROUPING} for related alerts: those of the
 * same kind announced within that time of it. Other alerts in between wait for the spacing and are
 * sent together.
 *
 * <p>An acknowledged alert (ANSI/ISA-18.2) is not escalated. Its reminders are at least {@link
 * #ACKNOWLEDGED_REMINDER} apart.
 */
public final class NoticeRules {
  /** A notice to send, about one or more subjects. */
  public record DueNotice(
      NoticeKind kind, List<AlertSubject> subjects, List<PendingAlert> pendingAlerts) {
    public DueNotice {
      subjects = List.copyOf(subjects);
      pendingAlerts = List.copyOf(pendingAlerts);
    }

    Priority priority() {
      return subjects.stream().map(AlertSubject::priority).reduce(Priority.LOW, Priority::max);
    }
  }

  /**
   * The actions that are due now.
   *
   * @param due notices to send
   * @param stateOnly states to store without sending a notice
   * @param removed keys of states to delete
   */
  public record Plan(List<DueNotice> due, List<NotificationState> stateOnly, Set<String> removed) {}

  /**
   * Longest wait of a return notice for related returns, and longest distance between the raise
   * notices of related alerts; common practice, no source.
   */
  static final Duration RETURN_GROUPING = Duration.ofMinutes(30);

  /** Shortest time between reminders of an acknowledged alert; common practice, no source. */
  static final Duration ACKNOWLEDGED_REMINDER = Duration.ofHours(24);

  private static final Duration CLOCK_SET_BACK = Duration.ofHours(1);

  private final NoticeSettings settings;

  public NoticeRules(NoticeSettings settings) {
    this.settings = settings;
  }

  /** Whether a notice about this subject is pending, so that its collection time starts. */
  public boolean pending(AlertSubject subject, Map<String, NotificationState> states) {
    return pendingRaise(subject, states) || pendingReturn(subject, states.get(subject.key()));
  }

  private static boolean pendingRaise(AlertSubject subject, Map<String, NotificationState> states) {
    return !subject.acknowledged()
        && !subject.shelved()
        && newlyRaised(subject, states.get(subject.key()))
        && listedAsPending(subject, states) == null;
  }

  private static boolean newlyRaised(AlertSubject subject, @Nullable NotificationState own) {
    return own == null || (own.stage() == Stage.RETURNED && subject.active());
  }

  /** The state from its listing as a pending alert; null if it was not listed. */
  private static @Nullable NotificationState listedAsPending(
      AlertSubject subject, Map<String, NotificationState> states) {
    NotificationState listed = states.get(subject.pendingKey());
    return listed != null && !subject.since().isAfter(listed.raisedAt()) ? listed : null;
  }

  private boolean pendingReturn(AlertSubject subject, @Nullable NotificationState state) {
    return settings.announceReturns()
        && hasReturned(subject, state)
        && !subject.shelved()
        && !subject.isForecast();
  }

  private static boolean hasReturned(AlertSubject subject, @Nullable NotificationState state) {
    return state != null && state.stage() == Stage.RAISED && !subject.active();
  }

  /**
   * Plans the notices that are due.
   *
   * @param subjects all open subjects, and announced ones whose return was not announced
   * @param pendingAlerts conditions in their on-delay
   * @param states notification states by key
   * @param pendingSince start of the collection time of each pending subject, by key
   */
  public Plan plan(
      Collection<AlertSubject> subjects,
      Collection<PendingAlert> pendingAlerts,
      Map<String, NotificationState> states,
      Map<String, Instant> pendingSince,
      Instant now) {
    List<DueNotice> due = new ArrayList<>();
    List<AlertSubject> notQuiet = subjects.stream().filter(c -> !quiet(c.priority(), now)).toList();
    List<AlertSubject> raised = raised(notQuiet, states, pendingSince, now);
    add(due, NoticeKind.RAISED, raised, pendingOfKinds(raised, pendingAlerts, states));
    add(due, NoticeKind.RETURNED, returned(notQuiet, states, pendingSince, now), List.of());
    add(due, NoticeKind.ESCALATION, escalated(notQuiet, states, now), List.of());
    add(due, NoticeKind.REMINDER, reminded(notQuiet, states, now), List.of());
    return new Plan(due, stateOnly(subjects, states), gone(subjects, pendingAlerts, states));
  }

  /** Pending alerts of the same kinds that were not listed in an earlier notice. */
  private static List<PendingAlert> pendingOfKinds(
      List<AlertSubject> raised,
      Collection<PendingAlert> pendingAlerts,
      Map<String, NotificationState> states) {
    Set<String> topics = new HashSet<>();
    raised.stream().filter(AlertSubject::active).forEach(subject -> topics.add(subject.topic()));
    return pendingAlerts.stream()
        .filter(one -> topics.contains(one.topic()) && !listedBefore(one, states.get(one.key())))
        .toList();
  }

  private static boolean listedBefore(PendingAlert pending, @Nullable NotificationState listed) {
    return listed != null && !pending.since().isAfter(listed.raisedAt());
  }

  private List<NotificationState> stateOnly(
      Collection<AlertSubject> subjects, Map<String, NotificationState> states) {
    List<NotificationState> stateOnly = new ArrayList<>();
    for (AlertSubject subject : subjects) {
      NotificationState own = states.get(subject.key());
      NotificationState listed = listedAsPending(subject, states);
      if (listed != null && newlyRaised(subject, own)) {
        stateOnly.add(NotificationState.raised(subject, listed.raisedAt()));
      } else if (own != null && hasReturned(subject, own) && !pendingReturn(subject, own)) {
        stateOnly.add(own.returned());
      }
    }
    return stateOnly;
  }

  private boolean quiet(Priority priority, Instant now) {
    QuietHours hours = settings.quietHours().get(priority);
    return hours != null && hours.at(now, settings.zone());
  }

  /**
   * Whether the summary of today is due. After the time of the day was missed, it is due for the
   * rest of the day.
   *
   * @param last when the last summary was sent; null if none was
   */
  boolean isSummaryDue(@Nullable Instant last, Instant now) {
    LocalTime at = settings.summaryAt();
    if (at == null || quiet(Priority.LOW, now)) {
      return false;
    }
    Instant today =
        now.atZone(settings.zone()).toLocalDate().atTime(at).atZone(settings.zone()).toInstant();
    return !now.isBefore(today) && (last == null || last.isBefore(today) || last.isAfter(now));
  }

  private static void add(
      List<DueNotice> due,
      NoticeKind kind,
      List<AlertSubject> subjects,
      List<PendingAlert> pendingAlerts) {
    if (!subjects.isEmpty()) {
      due.add(new DueNotice(kind, subjects, pendingAlerts));
    }
  }

  /** Sends all pending subjects together, as soon as one of them is due. */
  private List<AlertSubject> raised(
      List<AlertSubject> notQuiet,
      Map<String, NotificationState> states,
      Map<String, Instant> pendingSince,
      Instant now) {
    Map<String, Instant> lastByTopic = lastByTopic(states);
    List<AlertSubject> pending = matching(notQuiet, c -> pendingRaise(c, states));
    boolean ready =
        pending.stream()
            .anyMatch(
                c ->
                    passed(pendingSince.getOrDefault(c.key(), now), settings.collect(), now)
                        && spaced(lastByTopic.get(c.topic()), now));
    return ready ? pending : List.of();
  }

  /** When each topic was last announced. */
  private static Map<String, Instant> lastByTopic(Map<String, NotificationState> states) {
    Map<String, Instant> last = new HashMap<>();
    states.values().forEach(t -> last.merge(t.topic(), t.raisedAt(), NoticeRules::later));
    return last;
  }

  /** Why a subject is not announced now; null if it was announced. */
  @Nullable NoticeWait waiting(
      AlertSubject subject,
      Map<String, NotificationState> states,
      Map<String, Instant> pendingSince,
      Instant now) {
    if (!newlyRaised(subject, states.get(subject.key()))
        || listedAsPending(subject, states) != null) {
      return null;
    }
    if (subject.acknowledged()) {
      return new NoticeWait(NoticeWait.Reason.ACKNOWLEDGED, null);
    }
    if (subject.shelved()) {
      return new NoticeWait(NoticeWait.Reason.PAUSED, null);
    }
    QuietHours hours = settings.quietHours().get(subject.priority());
    Instant quietUntil = hours == null ? null : hours.end(now, settings.zone());
    if (quietUntil != null) {
      return new NoticeWait(NoticeWait.Reason.QUIET, quietUntil);
    }
    Instant last = lastByTopic(states).get(subject.topic());
    if (last != null && !spaced(last, now)) {
      return new NoticeWait(NoticeWait.Reason.GROUPED, last.plus(settings.spacing()));
    }
    Instant since = pendingSince.getOrDefault(subject.key(), now);
    return new NoticeWait(NoticeWait.Reason.COLLECTING, since.plus(settings.collect()));
  }

  private boolean spaced(@Nullable Instant lastOfTopic, Instant now) {
    return lastOfTopic == null || passed(lastOfTopic, settings.spacing(), now);
  }

  private List<AlertSubject> returned(
      List<AlertSubject> notQuiet,
      Map<String, NotificationState> states,
      Map<String, Instant> pendingSince,
      Instant now) {
    List<AlertSubject> pending = matching(notQuiet, c -> pendingReturn(c, states.get(c.key())));
    boolean ready =
        pending.stream()
            .anyMatch(
                c ->
                    passed(
                        pendingSince.getOrDefault(c.key(), now),
                        relatedActive(c, notQuiet, states) ? RETURN_GROUPING : settings.collect(),
                        now));
    return ready ? pending : List.of();
  }

  /** Whether a related alert, announced at about the same time, is still active. */
  private static boolean relatedActive(
      AlertSubject returned, List<AlertSubject> notQuiet, Map<String, NotificationState> states) {
    NotificationState own = states.get(returned.key());
    return own != null
        && notQuiet.stream()
            .filter(other -> other.active() && other.topic().equals(returned.topic()))
            .map(other -> states.get(other.key()))
            .anyMatch(other -> other != null && together(own.raisedAt(), other.raisedAt()));
  }

  private static boolean together(Instant a, Instant b) {
    return Duration.between(a, b).abs().compareTo(RETURN_GROUPING) <= 0;
  }

  private List<AlertSubject> escalated(
      List<AlertSubject> notQuiet, Map<String, NotificationState> states, Instant now) {
    Duration after = settings.escalateAfter();
    if (after == null) {
      return List.of();
    }
    List<Known> unanswered =
        lasting(notQuiet, states).stream()
            .filter(k -> !k.subject().acknowledged() && k.subject().priority() != Priority.LOW)
            .filter(k -> k.state().escalatedAt() == null)
            .toList();
    return together(unanswered, k -> new Wait(k.state().raisedAt(), after), now);
  }

  private List<AlertSubject> reminded(
      List<AlertSubject> notQuiet, Map<String, NotificationState> states, Instant now) {
    Duration after = settings.remindAfter();
    if (after == null) {
      return List.of();
    }
    return together(lasting(notQuiet, states), k -> reminder(k, after), now);
  }

  private static Wait reminder(Known known, Duration after) {
    Instant seen = known.subject().acknowledgedAt();
    Instant last = known.state().lastAt();
    return seen == null
        ? new Wait(last, after)
        : new Wait(later(last, seen), max(after, ACKNOWLEDGED_REMINDER));
  }

  /** A waiting time with its start. */
  private record Wait(Instant since, Duration time) {
    boolean over(Instant now) {
      return passed(since, time, now);
    }
  }

  /**
   * Groups subjects: when the waiting time of one is over, includes those whose waiting time ends
   * within the spacing.
   */
  private List<AlertSubject> together(List<Known> known, Function<Known, Wait> waits, Instant now) {
    Predicate<Known> soon =
        k -> {
          Wait wait = waits.apply(k);
          return wait.over(now.plus(min(settings.spacing(), wait.time().dividedBy(2))));
        };
    return known.stream().anyMatch(k -> waits.apply(k).over(now))
        ? known.stream().filter(soon).map(Known::subject).toList()
        : List.of();
  }

  private static Duration max(Duration a, Duration b) {
    return a.compareTo(b) > 0 ? a : b;
  }

  private static Duration min(Duration a, Duration b) {
    return a.compareTo(b) < 0 ? a : b;
  }

  /** A subject with a notification state. */
  private record Known(AlertSubject subject, NotificationState state) {}

  private static List<Known> known(
      Collection<AlertSubject> subjects, Map<String, NotificationState> states) {
    List<Known> known = new ArrayList<>();
    for (AlertSubject subject : subjects) {
      NotificationState before = states.get(subject.key());
      if (before != null) {
        known.add(new Known(subject, before));
      }
    }
    return known;
  }

  private static List<Known> lasting(
      List<AlertSubject> notQuiet, Map<String, NotificationState> states) {
    return known(notQuiet, states).stream()
        .filter(k -> k.state().stage() == Stage.RAISED)
        .filter(k -> k.subject().active() && !k.subject().shelved())
        .toList();
  }

  private static Set<String> gone(
      Collection<AlertSubject> subjects,
      Collection<PendingAlert> pendingAlerts,
      Map<String, NotificationState> states) {
    Set<String> gone = new HashSet<>(states.keySet());
    subjects.forEach(subject -> gone.remove(subject.key()));
    pendingAlerts.stream()
        .filter(one -> listedBefore(one, states.get(one.key())))
        .forEach(one -> gone.remove(one.key()));
    return gone;
  }

  private static List<AlertSubject> matching(
      List<AlertSubject> subjects, Predicate<AlertSubject> fits) {
    return subjects.stream().filter(fits).toList();
  }

  /**
   * Whether the time has passed. An instant more than 1 h in the future was stored before the clock
   * was set back and counts as passed.
   */
  private static boolean passed(Instant since, Duration time, Instant now) {
    return !now.isBefore(since.plus(time)) || since.isAfter(now.plus(CLOCK_SET_BACK));
  }

  private static Instant later(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  /** The notification state after a notice about the subject. */
  static NotificationState after(
      NoticeKind kind, AlertSubject subject, @Nullable NotificationState before, Instant now) {
    NotificationState known = before == null ? NotificationState.raised(subject, now) : before;
    return switch (kind) {
      case RAISED, SUMMARY, TEST -> NotificationState.raised(subject, now);
      case RETURNED -> known.returned();
      case REMINDER -> known.reminded(now);
      case ESCALATION -> known.escalated(now);
    };
  }
}
