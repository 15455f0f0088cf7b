package tepidarium.alert.notify;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.alert.Alert;
import tepidarium.alert.AlertKind;
import tepidarium.alert.Condition;
import tepidarium.alert.MemoryAlerts;
import tepidarium.alert.Priority;
import tepidarium.container.ContainerId;
import tepidarium.it.MovableClock;
import tepidarium.records.Database;
import tepidarium.records.NoticeRecords;
import tepidarium.records.sqlite.SqliteRecords;

/** Notices and their outbox on a real records file, over ends and new starts. */
class NoticesTest {
  private static final Duration SOON = Duration.ofSeconds(30);
  private static final Instant START = Instant.parse("2026-03-04T08:00:00Z");

  private static final NoticeText TEXT = new NoticeText(ZoneOffset.UTC, new Units(false), null);
  private static final DailySummary FACTS = new DailySummary(8, 9, "", List.of());

  @TempDir private Path folder;
  private final List<String> reached = new CopyOnWriteArrayList<>();
  private @Nullable LocalTime summaryAt;
  private volatile DeliveryOutcome answer = DeliveryOutcome.delivered("taken");
  private Database database;
  private NoticeRecords store;
  private Notices notices;

  private final MovableClock clock = new MovableClock(START);
  private final MemoryAlerts alertStore = new MemoryAlerts();
  private volatile Function<Alert, AlertDetails> details =
      alert -> new AlertDetails(alert, "Jar " + alert.id(), null);

  /** A receiver that notes what reaches it, with the number that it would know a repeat by. */
  private class Receiver implements Notifier {
    private final String name;

    Receiver(String name) {
      this.name = name;
    }

    @Override
    public String name() {
      return name;
    }

    @Override
    public String kind() {
      return "webhook";
    }

    @Override
    public String target() {
      return name;
    }

    @Override
    public boolean onlyForEscalation() {
      return name.equals("second");
    }

    @Override
    public DeliveryOutcome deliver(Delivery delivery) {
      if (answer.result() == DeliveryOutcome.Result.DELIVERED) {
        reached.add(name + ": " + delivery.notice().subject());
      }
      return answer;
    }
  }

  @BeforeEach
  void open() {
    database = SqliteRecords.open(folder.resolve("records.db"));
    store = new NoticeRecords(database);
    notices =
        new Notices(
            alertStore,
            store,
            settings(),
            TEXT,
            alert -> details.apply(alert),
            ContainerId::value,
            clock);
  }

  private NoticeSettings settings() {
    return new NoticeSettings(
        Duration.ofSeconds(60),
        Duration.ofMinutes(10),
        Duration.ofMinutes(30),
        Duration.ofHours(6),
        true,
        Map.of(),
        summaryAt,
        ZoneOffset.UTC,
        Duration.ofHours(24));
  }

  /** A mail server that does not answer must not keep notices from the pages. */
  @Test
  void aLongQueueOfOneNotifierDoesNotKeepTheOthersWaiting() {
    Notice notice = TEXT.test(START);
    for (int i = 0; i < 201; i++) {
      store.add(notice, List.of("email"), List.of());
    }
    store.add(notice, List.of("page"), List.of());
    List<String> notifiers = store.due(START).stream().map(Delivery::notifier).toList();
    assertTrue(notifiers.contains("page"), notifiers.size() + " due");
    assertTrue(notifiers.contains("email"));
  }

  private void start() {
    start(new Receiver("first"), new Receiver("second"));
  }

  private void start(Notifier... notifiers) {
    notices.use(settings(), TEXT, List.of(notifiers));
    notices.start(() -> FACTS, Duration.ofSeconds(1));
  }

  /** A notice that waits for a notifier goes over the new one of the same name, once. */
  @Test
  void newSettingsTakeOverWhatWaits() {
    answer = DeliveryOutcome.later("busy");
    start();
    raise(1);
    await().atMost(SOON).until(() -> moving() && attempts() >= 1);
    answer = DeliveryOutcome.delivered("taken");
    notices.use(settings(), TEXT, List.of(new Receiver("first"), new Receiver("third")));
    assertEquals(
        List.of("first", "third"), notices.notifiers().stream().map(Notifier::name).toList());
    await().atMost(SOON).until(() -> moving() && !reached.isEmpty());
    raise(2);
    await()
        .atMost(SOON)
        .until(() -> moving() && reached.stream().anyMatch(one -> one.startsWith("third: ")));
    assertEquals(
        2, reached.stream().filter(one -> one.startsWith("first: ")).count(), () -> "" + reached);
  }

  @AfterEach
  void close() {
    notices.close();
    database.close();
  }

  private void restart() {
    close();
    open();
    start();
  }

  private static Alert cold(int id, Instant returned, Instant acknowledged) {
    return cold(id, START, returned, acknowledged);
  }

  private static Alert cold(int id, Instant raised, Instant returned, Instant acknowledged) {
    return new Alert(
        id,
        new ContainerId("jar-" + id),
        AlertKind.COLD,
        29.5,
        raised,
        raised,
        returned,
        acknowledged,
        acknowledged == null ? null : "Ida",
        null,
        25,
        24,
        new Alert.Extra(Priority.HIGH, null, null, List.of(), null, null, false));
  }

  private void raise(int id) {
    alertStore.save(List.of(cold(id, null, null)), Map.of());
    notices.alertChanged(cold(id, null, null));
  }

  private void awaitReached(int count) {
    await().atMost(SOON).until(() -> moving() && reached.size() >= count);
  }

  @Test
  void anAlertRaisedJustBeforeAKillIsAnnouncedOnceAfterIt() {
    // In the store, but nobody was told: the service died in between.
    alertStore.save(List.of(cold(1, null, null)), Map.of());
    start();
    await().atMost(SOON).until(() -> moving() && first().size() == 1);
    for (int i = 0; i < 3; i++) {
      restart();
      raise(1);
      clock.pass(Duration.ofSeconds(700));
    }
    raise(2);
    await().atMost(SOON).until(() -> moving() && first().size() == 2);
    assertTrue(first().get(0).contains("Jar 1"), reached.toString());
    assertTrue(first().get(1).contains("Jar 2"), reached.toString());
  }

  @Test
  void eachAlertTellsByWhomItWasAnnouncedOrWhyNot() {
    alertStore.save(List.of(cold(1, null, null), cold(2, null, START)), Map.of());
    start();
    await()
        .atMost(SOON)
        .until(() -> moving() && store.newest(Delivery.State.DELIVERED, 9).size() == 1);
    Map<Long, AlertNotices> byAlert = new HashMap<>();
    notices.ofAlerts(9).forEach(one -> byAlert.put(one.alert(), one));
    AlertNotices told = byAlert.get(1L);
    assertNull(told.waiting());
    assertEquals("first", told.deliveries().get(0).notifier());
    assertEquals(told.deliveries().get(0).notice().createdAt(), told.announcedAt());
    AlertNotices seen = byAlert.get(2L);
    assertEquals(new NoticeWait(NoticeWait.Reason.ACKNOWLEDGED, null), seen.waiting());
    assertEquals(List.of(), seen.deliveries());
    assertNull(seen.announcedAt());
  }

  /** An interrupted thread gets no answer from a store, and the notice would lack its figures. */
  @Test
  void theStopDoesNotInterruptANotice() throws InterruptedException {
    Thread closer = new Thread(() -> notices.close());
    AtomicBoolean interrupted = new AtomicBoolean();
    CountDownLatch asked = new CountDownLatch(1);
    details =
        alert -> {
          asked.countDown();
          while (closer.getState() != Thread.State.TIMED_WAITING) {
            Thread.onSpinWait();
          }
          interrupted.set(Thread.currentThread().isInterrupted());
          return new AlertDetails(alert, "Jar " + alert.id(), 1.0);
        };
    alertStore.save(List.of(cold(1, null, null)), Map.of());
    start();
    await().atMost(SOON).until(() -> moving() && asked.getCount() == 0);
    closer.start();
    closer.join();
    assertFalse(interrupted.get());
    assertEquals(1, store.newest(null, 9).size());
  }

  @Test
  void theSummaryIsSentOnceADay() {
    summaryAt = LocalTime.of(8, 0);
    close();
    open();
    start();
    await().atMost(SOON).until(() -> !reached.isEmpty());
    restart();
    raise(1);
    await().atMost(SOON).until(() -> moving() && first().size() == 2);
    assertTrue(first().get(1).contains("Jar 1"), reached.toString());
    clock.set(START.plus(Duration.ofHours(23)));
    restart();
    await().atMost(SOON).until(() -> moving() && first().size() >= 3);
    clock.set(START.plus(Duration.ofHours(24)));
    await()
        .atMost(SOON)
        .until(
            () -> first().stream().filter(one -> one.startsWith("first: Tepidarium")).count() == 2);
    assertEquals("first: Tepidarium: all in order", first().get(0));
    assertTrue(
        first().contains("first: Tepidarium: 1 active alert: 1 too cold"), reached.toString());
    assertTrue(reached.stream().noneMatch(one -> one.startsWith("second: Tepidarium")));
  }

  /** What reached the first address. */
  private List<String> first() {
    return reached.stream().filter(each -> each.startsWith("first")).toList();
  }

  /** Advances the clock while something is awaited, and has the state evaluated at once. */
  private boolean moving() {
    clock.pass(Duration.ofSeconds(61));
    notices.alertChanged(cold(1, null, null));
    return true;
  }

  @Test
  void waitingDeliveriesSurviveARestartAndAreDeliveredOnce() {
    answer = DeliveryOutcome.later("busy");
    start();
    raise(1);
    await()
        .atMost(SOON)
        .until(() -> moving() && store.deliveryCounts().containsKey("first") && attempts() >= 2);
    assertEquals("busy", store.deliveryCounts().get("first").trouble());
    restart();
    answer = DeliveryOutcome.delivered("taken");
    await().atMost(SOON).until(() -> moving() && !reached.isEmpty());
    restart();
    await().atMost(SOON).until(() -> moving() && waiting() == 0);
    assertEquals(1, first().stream().filter(s -> s.startsWith("first: Jar 1")).count());
  }

  /** The error ends the attempt after the receiver took the message, as a kill does. */
  @Test
  void aMessageWithoutAnOutcomeIsPerhapsSentAndRemindedOfAfterTheUsualTime() {
    start(
        new Receiver("first") {
          @Override
          public DeliveryOutcome deliver(Delivery delivery) {
            super.deliver(delivery);
            throw new AssertionError("killed");
          }
        });
    raise(1);
    await().dontCatchUncaughtExceptions().atMost(SOON).until(() -> moving() && !reached.isEmpty());
    Instant sent = store.newest(null, 1).get(0).notice().createdAt();
    close();
    open();
    start(new Receiver("first"));
    Delivery perhaps = store.newest(Delivery.State.PERHAPS_SENT, 9).get(0);
    assertEquals(1, perhaps.attempts());
    raise(2);
    await().atMost(SOON).until(() -> moving() && reached.size() >= 2);
    assertTrue(reached.get(1).startsWith("first: Jar 2"), reached.toString());
    clock.set(sent.plus(Duration.ofHours(5)).plus(Duration.ofMinutes(50)));
    await().atMost(SOON).until(() -> moving() && reached.size() >= 3);
    assertTrue(reached.get(2).startsWith("first: Still: "), reached.toString());
    Notice reminder = store.newest(Delivery.State.DELIVERED, 1).get(0).notice();
    assertTrue(reminder.about().stream().anyMatch(about -> about.alert() == 1));
    assertFalse(reminder.createdAt().isBefore(sent.plus(Duration.ofHours(6))));
  }

  private int attempts() {
    return store.newest(null, 10).stream().mapToInt(Delivery::attempts).max().orElse(0);
  }

  private long waiting() {
    return store.deliveryCounts().values().stream()
        .mapToLong(NoticeStore.DeliveryCounts::waiting)
        .sum();
  }

  @Test
  void anUndeliveredNoticeIsGivenUpAfterADayAndShown() {
    answer = DeliveryOutcome.later("nobody there");
    start();
    raise(1);
    await().atMost(SOON).until(() -> moving() && attempts() >= 1);
    clock.pass(Duration.ofHours(25));
    await().atMost(SOON).until(() -> !store.newest(Delivery.State.FAILED, 10).isEmpty());
    Delivery failed = store.newest(Delivery.State.FAILED, 10).get(0);
    assertEquals("nobody there", failed.words());
  }

  @Test
  void aRemovedNotifierIsGivenUpWithAReason() {
    answer = DeliveryOutcome.later("busy");
    start();
    raise(1);
    await().atMost(SOON).until(() -> moving() && attempts() >= 1);
    close();
    open();
    start(new Notifier[0]);
    await()
        .atMost(SOON)
        .until(() -> moving() && !store.newest(Delivery.State.FAILED, 10).isEmpty());
    assertTrue(
        store.newest(Delivery.State.FAILED, 1).get(0).words().contains("no notifier \"first\""));
  }

  @Test
  void fortySimultaneousAlertsAreOneMessage() {
    start();
    for (int i = 1; i <= 40; i++) {
      raise(i);
    }
    awaitReached(1);
    assertEquals(List.of("first: 40 containers: 40 too cold"), List.copyOf(reached));
    assertEquals(40, store.newest(null, 1).get(0).notice().about().size());
  }

  @Test
  void aPendingAlertInANoticeIsNotAnnouncedAgainByANewService() {
    Condition cold = new Condition(START, false, null, START, 29);
    alertStore.save(List.of(), Map.of(cold(2, null, null).key(), cold));
    start();
    raise(1);
    await().atMost(SOON).until(() -> moving() && first().size() == 1);
    assertEquals("first: 2 containers: 1 too cold, 1 more past the limit", first().get(0));
    restart();
    alertStore.save(
        List.of(cold(2, null, null)),
        Map.of(cold(2, null, null).key(), new Condition(START, true, null, START, 29)));
    notices.alertChanged(cold(2, null, null));
    await()
        .atMost(SOON)
        .until(() -> store.notificationStates().containsKey(AlertSubject.key(cold(2, null, null))));
    restart();
    clock.pass(Duration.ofMinutes(20));
    raise(3);
    await().atMost(SOON).until(() -> moving() && first().size() >= 2);
    assertTrue(first().get(1).contains("Jar 3 is too cold"), reached.toString());
    assertEquals(
        Set.of(),
        Set.copyOf(
            store.notificationStates().keySet().stream().filter(PendingAlert::isKey).toList()));
  }

  @Test
  void anAlertWithACorrectedStartIsNotAnnouncedAgain() {
    start();
    raise(1);
    await().atMost(SOON).until(() -> moving() && first().size() == 1);
    Alert earlier = cold(1, START.minusSeconds(3_600), null, null);
    alertStore.save(List.of(earlier), Map.of());
    notices.alertChanged(earlier);
    clock.pass(Duration.ofMinutes(11));
    raise(2);
    await().atMost(SOON).until(() -> moving() && first().size() >= 2);
    assertTrue(first().get(1).contains("Jar 2 is too cold"), reached.toString());
  }

  @Test
  void anAlertAnnouncedUnderAnOldKeyIsNotAnnouncedAgain() {
    close();
    open();
    String dated = AlertSubject.key(cold(1, null, null)) + '-' + START.toEpochMilli();
    store.saveStates(
        List.of(
            new NotificationState(
                dated, "cold", NotificationState.Stage.RAISED, START, null, null)),
        Set.of());
    alertStore.save(List.of(cold(1, null, null)), Map.of());
    restart();
    clock.pass(Duration.ofMinutes(11));
    raise(2);
    await().atMost(SOON).until(() -> moving() && !first().isEmpty());
    assertTrue(first().get(0).contains("Jar 2 is too cold"), reached.toString());
    assertFalse(store.notificationStates().containsKey(dated));
  }

  @Test
  void theSecondAddressGetsTheAlertAndItsReturn() {
    start();
    raise(1);
    awaitReached(1);
    clock.pass(Duration.ofMinutes(31));
    awaitReached(2);
    alertStore.save(List.of(cold(1, clock.instant(), clock.instant())), Map.of());
    notices.alertChanged(cold(1, clock.instant(), clock.instant()));
    await().atMost(SOON).until(() -> moving() && reached.size() == 4);
    List<String> who = new ArrayList<>(reached.stream().map(s -> s.split(":", 2)[0]).toList());
    assertEquals("first", who.get(0));
    assertEquals("second", who.get(1));
    assertEquals(List.of("first", "second"), who.subList(2, 4).stream().sorted().toList());
    assertTrue(reached.get(3).contains("Back to normal"), reached.toString());
  }

  @Test
  void troubleOfTheServiceIsReportedOnce() {
    start();
    notices.troubleChanged(new Trouble(Trouble.Kind.CLOCK, START, START, "It jumped."));
    await().atMost(SOON).until(() -> moving() && first().size() == 1);
    restart();
    raise(1);
    await().atMost(SOON).until(() -> moving() && first().size() == 2);
    assertEquals("first: Tepidarium: clock jumped", first().get(0));
    assertTrue(first().get(1).contains("Jar 1"));
  }

  @Test
  void retryDelaysDoubleUpToAQuarterOfAnHour() {
    assertEquals(Duration.ofSeconds(10), Delivery.BACKOFF.delay(1));
    assertEquals(Duration.ofSeconds(20), Delivery.BACKOFF.delay(2));
    assertEquals(Duration.ofSeconds(640), Delivery.BACKOFF.delay(7));
    assertEquals(Duration.ofMinutes(15), Delivery.BACKOFF.delay(8));
    assertEquals(Duration.ofMinutes(15), Delivery.BACKOFF.delay(500));
  }
}
