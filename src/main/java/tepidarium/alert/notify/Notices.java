package tepidarium.alert.notify;

import java.time.Clock;
import java.time.Duration;
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
import java.util.function.Supplier;
import java.util.stream.Stream;
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
 * Sends notices about alerts and service troubles. One thread evaluates {@link NoticeRules} against
 * the stored state at each change and every second. It stores new notices and their notification
 * states in one transaction, so a crash neither loses nor repeats a notice. The {@link Outbox}
 * delivers them with one thread per notifier. A delivery in progress at a kill is not repeated.
 */
public final class Notices implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Notices.class);

  /** Number of newest alerts in which the return of an announced alert is searched. */
  private static final int SEARCHED_ALERTS = 500;

  private static final long STOP_LIMIT_MS = 10_000;

  private final AlertStore alerts;
  private final NoticeStore store;
  private final Function<Alert, AlertDetails> situations;
  private final Function<ContainerId, String> names;
  private final Clock clock;
  private final Claims claims;
  private final Map<String, NotificationState> states;
  private final Map<String, Instant> pendingSince = new HashMap<>();
  private final Semaphore wake = new Semaphore(0);
  private final Thread thread;
  private volatile Setup setup;
  private volatile long evaluateEveryMs = 1_000;
  private volatile Supplier<DailySummary> summaries = () -> new DailySummary(0, 0, "", List.of());
  private volatile boolean stopping;
  private @Nullable String lastFailure;
  private @Nullable Instant lastSummary;

  /** How notices are decided, worded and sent. The settings replace it as a whole. */
  private record Setup(NoticeRules rules, NoticeText text, Outbox outbox) {}

  /**
   * Loads the stored state; {@link #start} begins sending.
   *
   * @param situations adds the details for a notice; called on the notice thread
   * @param names the name of a container; called on the notice thread
   */
  public Notices(
      AlertStore alerts,
      NoticeStore store,
      NoticeSettings settings,
      NoticeText text,
      Function<Alert, AlertDetails> situations,
      Function<ContainerId, String> names,
      Clock clock) {
    this.alerts = alerts;
    this.store = store;
    this.situations = situations;
    this.names = names;
    this.clock = clock;
    this.claims = new Claims(store, clock);
    claims.settleFormer();
    this.states = statesById(store);
    this.lastSummary = store.newestOf(NoticeKind.SUMMARY).orElse(null);
    this.setup = newSetup(settings, text, List.of());
    this.thread = new Thread(this::run, "notices");
    thread.setDaemon(true);
  }

  private Setup newSetup(NoticeSettings settings, NoticeText text, List<Notifier> notifiers) {
    Outbox outbox = new Outbox(store, settings.giveUpAfter(), notifiers, claims);
    return new Setup(new NoticeRules(settings), text, outbox);
  }

  private static Map<String, NotificationState> statesById(NoticeStore store) {
    Map<String, NotificationState> stored = store.notificationStates();
    Map<String, NotificationState> states = new HashMap<>();
    stored.values().stream()
        .map(NotificationState::byNumber)
        .forEach(each -> states.put(each.subject(), each));
    Set<String> dated = new HashSet<>(stored.keySet());
    dated.removeAll(states.keySet());
    if (!dated.isEmpty()) {
      store.saveStates(states.values(), dated);
    }
    return states;
  }

  /**
   * Starts sending, including changes since the last stop. Call it once, after {@link #use}.
   *
   * @param summaries creates the daily summary; called on the notice thread
   * @param interval longest time between two evaluations
   */
  public void start(Supplier<DailySummary> summaries, Duration interval) {
    evaluateEveryMs = interval.toMillis();
    this.summaries = summaries;
    thread.start();
  }

  /**
   * Uses other settings and notifiers from now on. First waits, for at most 10 s, for deliveries
   * that are running, so that no notice is delivered twice.
   */
  public synchronized void use(NoticeSettings settings, NoticeText text, List<Notifier> notifiers) {
    setup.outbox().close();
    setup = newSetup(settings, text, notifiers);
  }

  /**
   * Signals that an alert has changed; returns at once. Notices are decided from the store, so a
   * repeated or missing call changes only the delay.
   */
  public void alertChanged(Alert alert) {
    LOG.debug("alert {} changed", alert.id());
    wake.release();
  }

  /** Stores the start or end of a service trouble. */
  public void troubleChanged(Trouble trouble) {
    store.put(trouble);
    wake.release();
  }

  /** The newest service trouble of each kind. */
  public List<Trouble> troubles() {
    return store.troubles();
  }

  public List<Notifier> notifiers() {
    return setup.outbox().notifiers();
  }

  public Map<String, NoticeStore.DeliveryCounts> deliveryCounts() {
    return store.deliveryCounts();
  }

  public List<Delivery> deliveries(Delivery.@Nullable State state, int limit) {
    return store.newest(state, limit);
  }

  /**
   * What became of the notices about each open alert, and about others with stored deliveries.
   *
   * @param limit number of newest deliveries to search
   */
  public synchronized List<AlertNotices> ofAlerts(int limit) {
    Map<Long, List<Delivery>> deliveries = new LinkedHashMap<>();
    Map<Long, NoticeWait> waiting = new HashMap<>();
    Instant now = clock.instant();
    for (Alert alert : alerts.open()) {
      AlertSubject subject = AlertSubject.of(alert, now);
      deliveries.put(alert.id(), new ArrayList<>());
      waiting.put(alert.id(), setup.rules().waiting(subject, states, pendingSince, now));
    }
    for (Delivery delivery : store.newest(null, limit)) {
      delivery.notice().about().stream()
          .map(Notice.About::alert)
          .flatMap(Stream::ofNullable)
          .forEach(id -> deliveries.computeIfAbsent(id, any -> new ArrayList<>()).add(delivery));
    }
    return deliveries.entrySet().stream()
        .map(
            entry ->
                new AlertNotices(
                    entry.getKey(),
                    announcedAt(entry.getKey()),
                    waiting.get(entry.getKey()),
                    entry.getValue()))
        .toList();
  }

  private @Nullable Instant announcedAt(long alert) {
    NotificationState state = states.get(AlertSubject.key(alert));
    return state == null ? null : state.raisedAt();
  }

  /** Sends a test notice and waits for the outcome, at most about one minute. */
  public DeliveryOutcome test(Notifier notifier) {
    Setup now = setup;
    return now.outbox().test(notifier, now.text().test(clock.instant()));
  }

  private void run() {
    while (!stopping) {
      try {
        evaluate(clock.instant());
        lastFailure = null;
        if (wake.tryAcquire(evaluateEveryMs, TimeUnit.MILLISECONDS)) {
          wake.drainPermits();
        }
      } catch (InterruptedException e) {
        return;
      } catch (RuntimeException e) {
        logOnce(e);
      }
    }
  }

  /** Logs each cause once, because the next attempt follows within 1 s. */
  private void logOnce(RuntimeException e) {
    String failure = e.toString();
    if (!failure.equals(lastFailure)) {
      LOG.error("cannot evaluate the notices; retrying every second", e);
    }
    lastFailure = failure;
    try {
      TimeUnit.MILLISECONDS.sleep(evaluateEveryMs);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      stopping = true;
    }
  }

  private synchronized void evaluate(Instant now) {
    // Read before the alerts: a condition raised in between then appears in both lists, not in
    // neither.
    Map<AlertKey, Condition> conditions = needsConditions() ? alerts.conditions() : Map.of();
    Map<String, Alert> known = openOrAnnounced();
    Map<String, Trouble> troubles = new HashMap<>();
    store.troubles().forEach(trouble -> troubles.put(trouble.key(), trouble));
    List<AlertSubject> subjects = new ArrayList<>();
    known.values().forEach(alert -> subjects.add(AlertSubject.of(alert, now)));
    troubles.values().forEach(trouble -> subjects.add(AlertSubject.of(trouble)));
    updatePendingSince(subjects, now);
    List<PendingAlert> pendingAlerts = PendingAlert.among(conditions, known.values(), now);
    NoticeRules.Plan plan =
        setup
            .rules()
            .plan(subjects, pendingAlerts, Map.copyOf(states), Map.copyOf(pendingSince), now);
    for (NoticeRules.DueNotice due : plan.due()) {
      if (stopping) {
        return;
      }
      announce(due, known, troubles, now);
    }
    saveChangesWithoutNotice(plan);
    if (setup.rules().isSummaryDue(lastSummary, now)) {
      sendSummary(now);
    }
    setup.outbox().handOut(now);
  }

  /** Whether pending alerts matter now; avoids a store query every second. */
  private boolean needsConditions() {
    return !pendingSince.isEmpty() || states.keySet().stream().anyMatch(PendingAlert::isKey);
  }

  /** Open alerts, and closed ones whose return was not announced. */
  private Map<String, Alert> openOrAnnounced() {
    Map<String, Alert> known = new LinkedHashMap<>();
    alerts.open().forEach(alert -> known.put(AlertSubject.key(alert), alert));
    Set<String> missing = new HashSet<>();
    states.values().stream()
        .filter(state -> state.stage() == Stage.RAISED && !known.containsKey(state.subject()))
        .forEach(state -> missing.add(state.subject()));
    if (!missing.isEmpty()) {
      for (Alert alert : alerts.newest(SEARCHED_ALERTS)) {
        if (missing.contains(AlertSubject.key(alert))) {
          known.put(AlertSubject.key(alert), alert);
        }
      }
    }
    return known;
  }

  private void updatePendingSince(List<AlertSubject> subjects, Instant now) {
    Set<String> pending = new HashSet<>();
    for (AlertSubject subject : subjects) {
      if (setup.rules().pending(subject, states)) {
        pending.add(subject.key());
        pendingSince.putIfAbsent(subject.key(), now);
      }
    }
    pendingSince.keySet().retainAll(pending);
  }

  private void announce(
      NoticeRules.DueNotice due,
      Map<String, Alert> known,
      Map<String, Trouble> troubles,
      Instant now) {
    List<AlertDetails> affected = new ArrayList<>();
    List<Trouble> ofService = new ArrayList<>();
    List<NotificationState> after = new ArrayList<>();
    boolean escalated = due.kind() == NoticeKind.ESCALATION;
    for (AlertSubject subject : due.subjects()) {
      NotificationState before = states.get(subject.key());
      after.add(NoticeRules.after(due.kind(), subject, before, now));
      escalated |=
          due.kind() == NoticeKind.RETURNED && before != null && before.escalatedAt() != null;
      Alert alert = known.get(subject.key());
      Trouble trouble = troubles.get(subject.key());
      if (alert != null) {
        affected.add(situations.apply(alert));
      } else if (trouble != null) {
        ofService.add(trouble);
      }
    }
    due.pendingAlerts().forEach(pending -> after.add(pending.announcedAt(now)));
    List<NoticeText.NamedPendingAlert> pendingAlerts =
        due.pendingAlerts().stream()
            .map(
                pending ->
                    new NoticeText.NamedPendingAlert(
                        pending, names.apply(pending.of().container())))
            .toList();
    Notice notice =
        setup.text().of(due.kind(), due.priority(), affected, pendingAlerts, ofService, now);
    store.add(notice, setup.outbox().names(due.kind(), escalated), after);
    after.forEach(state -> states.put(state.subject(), state));
    due.subjects().forEach(subject -> pendingSince.remove(subject.key()));
    LOG.info("notice: {}", notice.subject());
  }

  private void sendSummary(Instant now) {
    List<Alert> active = alerts.open().stream().filter(Alert::active).toList();
    List<Trouble> troubles = store.troubles().stream().filter(Trouble::active).toList();
    Notice notice = setup.text().summary(summaries.get(), active, troubles, now);
    store.add(notice, setup.outbox().names(NoticeKind.SUMMARY, false), List.of());
    lastSummary = now;
    LOG.info("notice: {}", notice.subject());
  }

  private void saveChangesWithoutNotice(NoticeRules.Plan plan) {
    List<NotificationState> stateOnly = plan.stateOnly();
    if (!stateOnly.isEmpty() || !plan.removed().isEmpty()) {
      store.saveStates(stateOnly, plan.removed());
      stateOnly.forEach(state -> states.put(state.subject(), state));
      states.keySet().removeAll(plan.removed());
    }
  }

  /**
   * Lets the notice in progress be completed, for at most 10 s: its details come from a store,
   * which does not answer an interrupted thread. The next start decides the others.
   */
  @Override
  public void close() {
    stopping = true;
    wake.release();
    try {
      thread.join(STOP_LIMIT_MS);
      thread.interrupt();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    setup.outbox().close();
  }
}
