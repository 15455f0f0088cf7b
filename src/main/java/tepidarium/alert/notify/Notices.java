package tepidarium.alert.notify;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKey;
import tepidarium.alert.AlertStore;
import tepidarium.alert.Condition;
import tepidarium.alert.notify.NotificationState.Stage;
import tepidarium.container.ContainerId;

/**
 * Tells people about alerts and about trouble of the service itself. One thread looks, at each
 * change and every second, at how things are in the store, decides by {@link NoticeRules}, and puts
 * notices into the outbox together with the note that they were told. So a kill at any moment
 * neither loses nor repeats one. Couriers, one thread a notifier, deliver from the outbox.
 */
public final class Notices implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Notices.class);
  private static final long LOOK_EVERY_MS = 1_000;

  /** How many alerts back the end of one that was told of is looked for. */
  private static final int LOOKED_BACK = 500;

  private final AlertStore alerts;
  private final NoticeStore store;
  private final NoticeSettings settings;
  private final NoticeRules rules;
  private final NoticeText text;
  private final Function<Alert, Situation> situations;
  private final Function<ContainerId, String> names;
  private final Clock clock;
  private final Map<String, NotificationState> told;
  private final Map<String, Instant> pendingSince = new HashMap<>();
  private final Semaphore wake = new Semaphore(0);
  private final Thread thread;
  private volatile Outbox outbox;
  private volatile boolean stopping;
  private @Nullable String lastFailure;

  /**
   * Takes up where the store left off; {@link #start} begins to tell.
   *
   * @param situations adds to an alert what a notice says besides; called on the telling thread
   * @param names what the grower calls a container; called on the telling thread
   */
  public Notices(
      AlertStore alerts,
      NoticeStore store,
      NoticeSettings settings,
      NoticeText text,
      Function<Alert, Situation> situations,
      Function<ContainerId, String> names,
      Clock clock) {
    this.alerts = alerts;
    this.store = store;
    this.settings = settings;
    this.rules = new NoticeRules(settings);
    this.text = text;
    this.situations = situations;
    this.names = names;
    this.clock = clock;
    this.told = toldByNumber(store);
    this.outbox = new Outbox(store, settings.giveUpAfter(), List.of(), clock);
    this.thread = new Thread(this::run, "notices");
    thread.setDaemon(true);
  }

  private static Map<String, NotificationState> toldByNumber(NoticeStore store) {
    Map<String, NotificationState> stored = store.told();
    Map<String, NotificationState> told = new HashMap<>();
    stored.values().stream().map(NotificationState::byNumber).forEach(each -> told.put(each.concern(), each));
    Set<String> dated = new HashSet<>(stored.keySet());
    dated.removeAll(told.keySet());
    if (!dated.isEmpty()) {
      store.tell(told.values(), dated);
    }
    return told;
  }

  /** Begins to tell, also what happened while nobody told. To be called once. */
  public void start(List<Notifier> notifiers) {
    outbox = new Outbox(store, settings.giveUpAfter(), notifiers, clock);
    thread.start();
  }

  /**
   * An alert has changed its state; returns at once. The store decides what is told, so telling the
   * same again, or never, changes nothing but the time it takes.
   */
  public void alertChanged(Alert alert) {
    LOG.debug("alert {} changed", alert.id());
    wake.release();
  }

  /** The service has noticed something about itself, or that it is over. */
  public void troubleChanged(Trouble trouble) {
    store.put(trouble);
    wake.release();
  }

  /** What the service has noticed about itself, the newest of each kind. */
  public List<Trouble> troubles() {
    return store.troubles();
  }

  public List<Notifier> notifiers() {
    return outbox.notifiers();
  }

  public Map<String, NoticeStore.Tally> tally() {
    return store.tally();
  }

  public List<Delivery> deliveries(Delivery.@Nullable State state, int most) {
    return store.newest(state, most);
  }

  /** Sends a test at once and waits for how it ends, about a minute at most. */
  public Outcome test(Notifier notifier) {
    return outbox.test(notifier, text.test(clock.instant()));
  }

  private void run() {
    while (!stopping) {
      try {
        look(clock.instant());
        lastFailure = null;
        if (wake.tryAcquire(LOOK_EVERY_MS, TimeUnit.MILLISECONDS)) {
          wake.drainPermits();
        }
      } catch (InterruptedException e) {
        return;
      } catch (RuntimeException e) {
        complain(e);
      }
    }
  }

  /** Once for each cause, since the next look comes in a second. */
  private void complain(RuntimeException e) {
    String failure = e.toString();
    if (!failure.equals(lastFailure)) {
      LOG.error("notices met a failure and try again", e);
    }
    lastFailure = failure;
    try {
      TimeUnit.MILLISECONDS.sleep(LOOK_EVERY_MS);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      stopping = true;
    }
  }

  private void look(Instant now) {
    // Before the alerts: what is raised in between is then both on its way and raised, not neither.
    Map<AlertKey, Condition> conditions = comingCounts() ? alerts.conditions() : Map.of();
    Map<String, Alert> known = openOrTold();
    Map<String, Trouble> troubles = new HashMap<>();
    store.troubles().forEach(trouble -> troubles.put(trouble.key(), trouble));
    List<AlertSubject> concerns = new ArrayList<>();
    known.values().forEach(alert -> concerns.add(AlertSubject.of(alert, now)));
    troubles.values().forEach(trouble -> concerns.add(AlertSubject.of(trouble)));
    notePending(concerns, now);
    List<PendingAlert> coming = PendingAlert.among(conditions, known.values(), now);
    NoticeRules.Plan plan =
        rules.plan(concerns, coming, Map.copyOf(told), Map.copyOf(pendingSince), now);
    for (NoticeRules.Due due : plan.due()) {
      tell(due, known, troubles, now);
    }
    settle(plan);
    outbox.handOut(now);
  }

  /** Asked of the store only where it matters, since this is looked at every second. */
  private boolean comingCounts() {
    return !pendingSince.isEmpty() || told.keySet().stream().anyMatch(PendingAlert::isKey);
  }

  /** Open alerts, and closed ones whose end was not told yet. */
  private Map<String, Alert> openOrTold() {
    Map<String, Alert> known = new LinkedHashMap<>();
    alerts.open().forEach(alert -> known.put(AlertSubject.key(alert), alert));
    Set<String> missing = new HashSet<>();
    told.values().stream()
        .filter(t -> t.stage() == Stage.RAISED && !known.containsKey(t.concern()))
        .forEach(t -> missing.add(t.concern()));
    if (!missing.isEmpty()) {
      for (Alert alert : alerts.newest(LOOKED_BACK)) {
        if (missing.contains(AlertSubject.key(alert))) {
          known.put(AlertSubject.key(alert), alert);
        }
      }
    }
    return known;
  }

  private void notePending(List<AlertSubject> concerns, Instant now) {
    Set<String> pending = new HashSet<>();
    for (AlertSubject concern : concerns) {
      if (rules.pending(concern, told)) {
        pending.add(concern.key());
        pendingSince.putIfAbsent(concern.key(), now);
      }
    }
    pendingSince.keySet().retainAll(pending);
  }

  private void tell(
      NoticeRules.Due due, Map<String, Alert> known, Map<String, Trouble> troubles, Instant now) {
    List<Situation> affected = new ArrayList<>();
    List<Trouble> ofService = new ArrayList<>();
    List<NotificationState> after = new ArrayList<>();
    boolean escalated = due.kind() == NoticeKind.ESCALATION;
    for (AlertSubject concern : due.concerns()) {
      NotificationState before = told.get(concern.key());
      after.add(NoticeRules.after(due.kind(), concern, before, now));
      escalated |=
          due.kind() == NoticeKind.RETURNED && before != null && before.escalatedAt() != null;
      Alert alert = known.get(concern.key());
      Trouble trouble = troubles.get(concern.key());
      if (alert != null) {
        affected.add(situations.apply(alert));
      } else if (trouble != null) {
        ofService.add(trouble);
      }
    }
    due.along().forEach(coming -> after.add(coming.told(now)));
    List<NoticeText.Along> along =
        due.along().stream()
            .map(coming -> new NoticeText.Along(coming, names.apply(coming.of().container())))
            .toList();
    Notice notice = text.of(due.kind(), due.priority(), affected, along, ofService, now);
    store.add(notice, outbox.names(due.kind(), escalated), after);
    after.forEach(t -> told.put(t.concern(), t));
    due.concerns().forEach(concern -> pendingSince.remove(concern.key()));
    LOG.info("notice: {}", notice.subject());
  }

  private void settle(NoticeRules.Plan plan) {
    List<NotificationState> silently = plan.silently();
    if (!silently.isEmpty() || !plan.forgotten().isEmpty()) {
      store.tell(silently, plan.forgotten());
      silently.forEach(t -> told.put(t.concern(), t));
      told.keySet().removeAll(plan.forgotten());
    }
  }

  @Override
  public void close() {
    stopping = true;
    thread.interrupt();
    try {
      thread.join(10_000);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    outbox.close();
  }
}
