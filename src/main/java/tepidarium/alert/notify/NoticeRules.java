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
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tepidarium.alert.Priority;
import tepidarium.alert.notify.Told.Stage;

/**
 * Decides what has to be told now from how things are and what was told before; nothing else
 * counts, so that a restart at any moment changes nothing. What is acknowledged before it was told
 * is not told. What is shelved is not told while it is.
 */
public final class NoticeRules {
  /** Something to tell, together. */
  public record Due(NoticeKind kind, List<Concern> concerns) {
    public Due {
      concerns = List.copyOf(concerns);
    }

    Priority priority() {
      return concerns.stream().map(Concern::priority).reduce(Priority.LOW, Priority::or);
    }
  }

  /**
   * What to do now.
   *
   * @param due notices to send
   * @param silently what counts as told without a notice
   * @param forgotten keys of which nothing has to be known any longer
   */
  public record Plan(List<Due> due, List<Told> silently, Set<String> forgotten) {}

  private static final Duration CLOCK_PUT_BACK = Duration.ofHours(1);

  private final NoticeSettings settings;

  public NoticeRules(NoticeSettings settings) {
    this.settings = settings;
  }

  /**
   * Whether a notice waits to be sent about this concern; from then on it is collected with others.
   */
  public boolean pending(Concern concern, @Nullable Told told) {
    return pendingRaise(concern, told) || pendingReturn(concern, told);
  }

  private static boolean pendingRaise(Concern concern, @Nullable Told told) {
    if (concern.acknowledged() || concern.shelved()) {
      return false;
    }
    return told == null || (told.stage() == Stage.RETURNED && concern.active());
  }

  private boolean pendingReturn(Concern concern, @Nullable Told told) {
    return settings.tellReturned()
        && hasReturned(concern, told)
        && !concern.shelved()
        && !concern.foresees();
  }

  private static boolean hasReturned(Concern concern, @Nullable Told told) {
    return told != null && told.stage() == Stage.RAISED && !concern.active();
  }

  /**
   * What has to be told now.
   *
   * @param concerns all that are open, and those told of whose end was not told yet
   * @param told how far each was told, by its key
   * @param pendingSince since when each that is pending has been so, by its key
   */
  public Plan plan(
      Collection<Concern> concerns,
      Map<String, Told> told,
      Map<String, Instant> pendingSince,
      Instant now) {
    List<Due> due = new ArrayList<>();
    List<Concern> audible = concerns.stream().filter(c -> !quiet(c.priority(), now)).toList();
    add(due, NoticeKind.RAISED, raised(audible, told, pendingSince, now));
    add(due, NoticeKind.RETURNED, returned(audible, told, pendingSince, now));
    add(due, NoticeKind.ESCALATION, escalated(audible, told, now));
    add(due, NoticeKind.REMINDER, reminded(audible, told, now));
    List<Told> silently =
        known(concerns, told).stream()
            .filter(k -> hasReturned(k.concern(), k.told()))
            .filter(k -> !pendingReturn(k.concern(), k.told()))
            .map(k -> k.told().returned())
            .toList();
    return new Plan(due, silently, gone(concerns, told));
  }

  private boolean quiet(Priority priority, Instant now) {
    QuietHours hours = settings.quietHours().get(priority);
    return hours != null && hours.at(now, settings.zone());
  }

  private static void add(List<Due> due, NoticeKind kind, List<Concern> concerns) {
    if (!concerns.isEmpty()) {
      due.add(new Due(kind, concerns));
    }
  }

  /** All that is pending goes as soon as the first of it may. */
  private List<Concern> raised(
      List<Concern> audible,
      Map<String, Told> told,
      Map<String, Instant> pendingSince,
      Instant now) {
    Map<String, Instant> lastByTopic = new HashMap<>();
    told.values().forEach(t -> lastByTopic.merge(t.topic(), t.raisedAt(), NoticeRules::later));
    List<Concern> pending = which(audible, c -> pendingRaise(c, told.get(c.key())));
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

  private List<Concern> returned(
      List<Concern> audible,
      Map<String, Told> told,
      Map<String, Instant> pendingSince,
      Instant now) {
    List<Concern> pending = which(audible, c -> pendingReturn(c, told.get(c.key())));
    boolean ready =
        pending.stream()
            .anyMatch(
                c ->
                    passed(
                        pendingSince.getOrDefault(c.key(), now),
                        othersLast(c, audible, told) ? settings.spacing() : settings.collect(),
                        now));
    return ready ? pending : List.of();
  }

  /** Those that began together seldom end together; they are waited for as for a next notice. */
  private static boolean othersLast(
      Concern returned, List<Concern> audible, Map<String, Told> told) {
    return audible.stream()
        .anyMatch(
            other ->
                other.active()
                    && other.topic().equals(returned.topic())
                    && told.containsKey(other.key()));
  }

  private List<Concern> escalated(List<Concern> audible, Map<String, Told> told, Instant now) {
    Duration after = settings.escalateAfter();
    if (after == null) {
      return List.of();
    }
    return lasting(audible, told).stream()
        .filter(k -> !k.concern().acknowledged() && k.concern().priority() != Priority.LOW)
        .filter(k -> k.told().escalatedAt() == null)
        .filter(k -> passed(k.told().raisedAt(), after, now))
        .map(Known::concern)
        .toList();
  }

  /** Those that would be due within the spacing go along, so that there is one reminder for all. */
  private List<Concern> reminded(List<Concern> audible, Map<String, Told> told, Instant now) {
    Duration after = settings.remindAfter();
    if (after == null) {
      return List.of();
    }
    List<Known> lasting = lasting(audible, told);
    boolean ready = lasting.stream().anyMatch(k -> passed(k.told().lastAt(), after, now));
    Instant soon = now.plus(min(settings.spacing(), after.dividedBy(2)));
    return ready
        ? lasting.stream()
            .filter(k -> passed(k.told().lastAt(), after, soon))
            .map(Known::concern)
            .toList()
        : List.of();
  }

  private static Duration min(Duration a, Duration b) {
    return a.compareTo(b) < 0 ? a : b;
  }

  /** A concern of which something was told already. */
  private record Known(Concern concern, Told told) {}

  private static List<Known> known(Collection<Concern> concerns, Map<String, Told> told) {
    List<Known> known = new ArrayList<>();
    for (Concern concern : concerns) {
      Told before = told.get(concern.key());
      if (before != null) {
        known.add(new Known(concern, before));
      }
    }
    return known;
  }

  private static List<Known> lasting(List<Concern> audible, Map<String, Told> told) {
    return known(audible, told).stream()
        .filter(k -> k.told().stage() == Stage.RAISED)
        .filter(k -> k.concern().active() && !k.concern().shelved())
        .toList();
  }

  private static Set<String> gone(Collection<Concern> concerns, Map<String, Told> told) {
    Set<String> gone = new HashSet<>(told.keySet());
    concerns.forEach(concern -> gone.remove(concern.key()));
    return gone;
  }

  private static List<Concern> which(List<Concern> concerns, Predicate<Concern> fits) {
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
  static Told after(NoticeKind kind, Concern concern, @Nullable Told before, Instant now) {
    Told known = before == null ? Told.raised(concern, now) : before;
    return switch (kind) {
      case RAISED, TEST -> Told.raised(concern, now);
      case RETURNED -> known.returned();
      case REMINDER -> known.reminded(now);
      case ESCALATION -> known.escalated(now);
    };
  }
}
