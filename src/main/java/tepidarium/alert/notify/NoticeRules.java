package tepidarium.alert.notify;

import java.time.Duration;
import java.time.Instant;
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
 * Decides what has to be told now from how things are and what was told before; nothing else
 * counts, so that a restart at any moment changes nothing. What is acknowledged before it was told
 * is not told. What is shelved is not told while it is.
 *
 * <p>What reaches a whole shelf should be one message each way, whatever pace each container has.
 * So a notice that something is wrong takes along those that are past the same limit and only wait
 * for their on-delay ({@link PendingAlert}); that delays nothing, and the price is that one may be named
 * that comes back inside before its alert. The end is no hurry: it waits up to {@link
 * #END_TOGETHER} for others of the same kind that were told of within as long, and the price is
 * that the end of one is told so much later while another lasts. Whatever else comes in between
 * waits for the spacing and goes together.
 *
 * <p>An acknowledged alert is one that somebody knows of (ANSI/ISA-18.2). It is not escalated, and
 * it is reminded of at most once in {@link #SEEN_PACE}, lest it be forgotten.
 */
public final class NoticeRules {
  /** Something to tell, together. */
  public record Due(NoticeKind kind, List<AlertSubject> concerns, List<PendingAlert> along) {
    public Due {
      concerns = List.copyOf(concerns);
      along = List.copyOf(along);
    }

    Priority priority() {
      return concerns.stream().map(AlertSubject::priority).reduce(Priority.LOW, Priority::or);
    }
  }

  /**
   * What to do now.
   *
   * @param due notices to send
   * @param silently what counts as told without a notice
   * @param forgotten keys of which nothing has to be known any longer
   */
  public record Plan(List<Due> due, List<NotificationState> silently, Set<String> forgotten) {}

  /**
   * How long the end of one waits for that of others, and how far apart those were told at most;
   * common practice, no source.
   */
  static final Duration END_TOGETHER = Duration.ofMinutes(30);

  /** How seldom, at most, what somebody knows is said again; common practice, no source. */
  static final Duration SEEN_PACE = Duration.ofHours(24);

  private static final Duration CLOCK_PUT_BACK = Duration.ofHours(1);

  private final NoticeSettings settings;

  public NoticeRules(NoticeSettings settings) {
    this.settings = settings;
  }

  /**
   * Whether a notice waits to be sent about this concern; from then on it is collected with others.
   */
  public boolean pending(AlertSubject concern, Map<String, NotificationState> told) {
    return pendingRaise(concern, told) || pendingReturn(concern, told.get(concern.key()));
  }

  private static boolean pendingRaise(AlertSubject concern, Map<String, NotificationState> told) {
    return !concern.acknowledged()
        && !concern.shelved()
        && newlyRaised(concern, told.get(concern.key()))
        && along(concern, told) == null;
  }

  private static boolean newlyRaised(AlertSubject concern, @Nullable NotificationState own) {
    return own == null || (own.stage() == Stage.RETURNED && concern.active());
  }

  /** How it was told along with others, before it was raised; null when it was not. */
  private static @Nullable NotificationState along(AlertSubject concern, Map<String, NotificationState> told) {
    NotificationState along = told.get(concern.comingKey());
    return along != null && !concern.since().isAfter(along.raisedAt()) ? along : null;
  }

  private boolean pendingReturn(AlertSubject concern, @Nullable NotificationState told) {
    return settings.tellReturned()
        && hasReturned(concern, told)
        && !concern.shelved()
        && !concern.foresees();
  }

  private static boolean hasReturned(AlertSubject concern, @Nullable NotificationState told) {
    return told != null && told.stage() == Stage.RAISED && !concern.active();
  }

  /**
   * What has to be told now.
   *
   * @param concerns all that are open, and those told of whose end was not told yet
   * @param coming all that only wait for their on-delay
   * @param told how far each was told, by its key
   * @param pendingSince since when each that is pending has been so, by its key
   */
  public Plan plan(
      Collection<AlertSubject> concerns,
      Collection<PendingAlert> coming,
      Map<String, NotificationState> told,
      Map<String, Instant> pendingSince,
      Instant now) {
    List<Due> due = new ArrayList<>();
    List<AlertSubject> audible = concerns.stream().filter(c -> !quiet(c.priority(), now)).toList();
    List<AlertSubject> raised = raised(audible, told, pendingSince, now);
    add(due, NoticeKind.RAISED, raised, alongWith(raised, coming, told));
    add(due, NoticeKind.RETURNED, returned(audible, told, pendingSince, now), List.of());
    add(due, NoticeKind.ESCALATION, escalated(audible, told, now), List.of());
    add(due, NoticeKind.REMINDER, reminded(audible, told, now), List.of());
    return new Plan(due, silently(concerns, told), gone(concerns, coming, told));
  }

  /** Those of the same kinds that were not told along already. */
  private static List<PendingAlert> alongWith(
      List<AlertSubject> raised, Collection<PendingAlert> coming, Map<String, NotificationState> told) {
    Set<String> topics = new HashSet<>();
    raised.stream().filter(AlertSubject::active).forEach(concern -> topics.add(concern.topic()));
    return coming.stream()
        .filter(one -> topics.contains(one.topic()) && !toldAlong(one, told.get(one.key())))
        .toList();
  }

  private static boolean toldAlong(PendingAlert coming, @Nullable NotificationState along) {
    return along != null && !coming.since().isAfter(along.raisedAt());
  }

  private List<NotificationState> silently(Collection<AlertSubject> concerns, Map<String, NotificationState> told) {
    List<NotificationState> silently = new ArrayList<>();
    for (AlertSubject concern : concerns) {
      NotificationState own = told.get(concern.key());
      NotificationState along = along(concern, told);
      if (along != null && newlyRaised(concern, own)) {
        silently.add(NotificationState.raised(concern, along.raisedAt()));
      } else if (own != null && hasReturned(concern, own) && !pendingReturn(concern, own)) {
        silently.add(own.returned());
      }
    }
    return silently;
  }

  private boolean quiet(Priority priority, Instant now) {
    QuietHours hours = settings.quietHours().get(priority);
    return hours != null && hours.at(now, settings.zone());
  }

  private static void add(
      List<Due> due, NoticeKind kind, List<AlertSubject> concerns, List<PendingAlert> along) {
    if (!concerns.isEmpty()) {
      due.add(new Due(kind, concerns, along));
    }
  }

  /** All that is pending goes as soon as the first of it may. */
  private List<AlertSubject> raised(
      List<AlertSubject> audible,
      Map<String, NotificationState> told,
      Map<String, Instant> pendingSince,
      Instant now) {
    Map<String, Instant> lastByTopic = new HashMap<>();
    told.values().forEach(t -> lastByTopic.merge(t.topic(), t.raisedAt(), NoticeRules::later));
    List<AlertSubject> pending = which(audible, c -> pendingRaise(c, told));
    boolean ready =
        pending.stream()
            .anyMatch(
                c ->
                    passed(pendingSince.getOrDefault(c.key(), now), settings.collect(), now)
                        && spaced(lastByTopic.get(c.topic()), now));
    return ready ? pending : List.of();
  }

  private boolean spaced(@Nullable Instant lastOfTopic, Instant now) {
    return lastOfTopic == null || passed(lastOfTopic, settings.spacing(), now);
  }

  private List<AlertSubject> returned(
      List<AlertSubject> audible,
      Map<String, NotificationState> told,
      Map<String, Instant> pendingSince,
      Instant now) {
    List<AlertSubject> pending = which(audible, c -> pendingReturn(c, told.get(c.key())));
    boolean ready =
        pending.stream()
            .anyMatch(
                c ->
                    passed(
                        pendingSince.getOrDefault(c.key(), now),
                        othersLast(c, audible, told) ? END_TOGETHER : settings.collect(),
                        now));
    return ready ? pending : List.of();
  }

  /**
   * Those that began together seldom end together; what began at another time is another matter.
   */
  private static boolean othersLast(
      AlertSubject returned, List<AlertSubject> audible, Map<String, NotificationState> told) {
    NotificationState own = told.get(returned.key());
    return own != null
        && audible.stream()
            .filter(other -> other.active() && other.topic().equals(returned.topic()))
            .map(other -> told.get(other.key()))
            .anyMatch(other -> other != null && together(own.raisedAt(), other.raisedAt()));
  }

  private static boolean together(Instant a, Instant b) {
    return Duration.between(a, b).abs().compareTo(END_TOGETHER) <= 0;
  }

  private List<AlertSubject> escalated(List<AlertSubject> audible, Map<String, NotificationState> told, Instant now) {
    Duration after = settings.escalateAfter();
    if (after == null) {
      return List.of();
    }
    List<Known> unanswered =
        lasting(audible, told).stream()
            .filter(k -> !k.concern().acknowledged() && k.concern().priority() != Priority.LOW)
            .filter(k -> k.told().escalatedAt() == null)
            .toList();
    return together(unanswered, k -> new Wait(k.told().raisedAt(), after), now);
  }

  private List<AlertSubject> reminded(List<AlertSubject> audible, Map<String, NotificationState> told, Instant now) {
    Duration after = settings.remindAfter();
    if (after == null) {
      return List.of();
    }
    return together(lasting(audible, told), k -> reminder(k, after), now);
  }

  private static Wait reminder(Known known, Duration after) {
    Instant seen = known.concern().acknowledgedAt();
    Instant last = known.told().lastAt();
    return seen == null
        ? new Wait(last, after)
        : new Wait(later(last, seen), max(after, SEEN_PACE));
  }

  /** How long something waits, and since when. */
  private record Wait(Instant since, Duration time) {
    boolean over(Instant now) {
      return passed(since, time, now);
    }
  }

  /** As soon as the wait of one is over, those go along whose wait would be within the spacing. */
  private List<AlertSubject> together(List<Known> known, Function<Known, Wait> waits, Instant now) {
    Predicate<Known> soon =
        k -> {
          Wait wait = waits.apply(k);
          return wait.over(now.plus(min(settings.spacing(), wait.time().dividedBy(2))));
        };
    return known.stream().anyMatch(k -> waits.apply(k).over(now))
        ? known.stream().filter(soon).map(Known::concern).toList()
        : List.of();
  }

  private static Duration max(Duration a, Duration b) {
    return a.compareTo(b) > 0 ? a : b;
  }

  private static Duration min(Duration a, Duration b) {
    return a.compareTo(b) < 0 ? a : b;
  }

  /** A concern of which something was told already. */
  private record Known(AlertSubject concern, NotificationState told) {}

  private static List<Known> known(Collection<AlertSubject> concerns, Map<String, NotificationState> told) {
    List<Known> known = new ArrayList<>();
    for (AlertSubject concern : concerns) {
      NotificationState before = told.get(concern.key());
      if (before != null) {
        known.add(new Known(concern, before));
      }
    }
    return known;
  }

  private static List<Known> lasting(List<AlertSubject> audible, Map<String, NotificationState> told) {
    return known(audible, told).stream()
        .filter(k -> k.told().stage() == Stage.RAISED)
        .filter(k -> k.concern().active() && !k.concern().shelved())
        .toList();
  }

  private static Set<String> gone(
      Collection<AlertSubject> concerns, Collection<PendingAlert> coming, Map<String, NotificationState> told) {
    Set<String> gone = new HashSet<>(told.keySet());
    concerns.forEach(concern -> gone.remove(concern.key()));
    coming.stream()
        .filter(one -> toldAlong(one, told.get(one.key())))
        .forEach(one -> gone.remove(one.key()));
    return gone;
  }

  private static List<AlertSubject> which(List<AlertSubject> concerns, Predicate<AlertSubject> fits) {
    return concerns.stream().filter(fits).toList();
  }

  /** An instant far ahead was noted before the clock was put back; it holds nothing up. */
  private static boolean passed(Instant since, Duration time, Instant now) {
    return !now.isBefore(since.plus(time)) || since.isAfter(now.plus(CLOCK_PUT_BACK));
  }

  private static Instant later(Instant a, Instant b) {
    return a.isAfter(b) ? a : b;
  }

  /** How far a concern is told once a notice about it is in the outbox. */
  static NotificationState after(NoticeKind kind, AlertSubject concern, @Nullable NotificationState before, Instant now) {
    NotificationState known = before == null ? NotificationState.raised(concern, now) : before;
    return switch (kind) {
      case RAISED, TEST -> NotificationState.raised(concern, now);
      case RETURNED -> known.returned();
      case REMINDER -> known.reminded(now);
      case ESCALATION -> known.escalated(now);
    };
  }
}
