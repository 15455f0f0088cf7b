package tepidarium.records;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import tepidarium.access.ApiToken;
import tepidarium.access.Person;
import tepidarium.access.Role;
import tepidarium.access.Session;
import tepidarium.alert.Priority;
import tepidarium.alert.notify.Delivery;
import tepidarium.alert.notify.Notice;
import tepidarium.alert.notify.NoticeKind;
import tepidarium.alert.notify.NoticeStore;
import tepidarium.alert.notify.NotificationState;
import tepidarium.alert.notify.Trouble;
import tepidarium.importing.ImportChoices;
import tepidarium.importing.ImportProfile;
import tepidarium.series.StoreException;

/** The part of the contract about notices, people, profiles and the clock. */
abstract class NoticesAndAccessContract {
  private static final Instant AT = Instant.parse("2026-03-02T07:00:00.456Z");

  /** Opens the database with its existing data; empty at the first call of a test. */
  abstract Database open();

  void change(Consumer<Database> change) {
    try (Database database = open()) {
      change.accept(database);
    }
  }

  <T> T read(Function<Database, T> read) {
    try (Database database = open()) {
      return read.apply(database);
    }
  }

  private static Notice notice(String subject) {
    List<Notice.About> about =
        List.of(
            new Notice.About(7L, "bag", "cold", true), new Notice.About(null, null, "disk", false));
    return new Notice(
        0, NoticeKind.RAISED, Priority.HIGH, AT, subject, "Text ü", "http://x/", about);
  }

  private static NotificationState state(String subject, Instant reminded) {
    return new NotificationState(
        subject, "cold", NotificationState.Stage.RAISED, AT, reminded, null);
  }

  @Test
  void noticesWaitInTheOutboxUntilTheyAreDelivered() {
    change(
        database -> {
          NoticeStore store = new NoticeRecords(database);
          store.add(notice("one"), List.of("email", "webhook"), List.of(state("7", null)));
          store.add(notice("two"), List.of("email"), List.of());
        });
    List<Delivery> due = read(database -> new NoticeRecords(database).due(AT));
    assertEquals(
        List.of("one email", "one webhook", "two email"),
        due.stream().map(one -> one.notice().subject() + ' ' + one.notifier()).toList());
    assertEquals(notice("one").about(), due.get(0).notice().about());
    assertEquals("http://x/", due.get(0).notice().link());
    assertEquals(List.of(), read(database -> new NoticeRecords(database).due(AT.minusMillis(1))));

    Delivery first = due.get(0);
    Delivery done =
        new Delivery(
            first.id(),
            first.notice(),
            first.notifier(),
            Delivery.State.DELIVERED,
            1,
            AT,
            AT.plusSeconds(1),
            null);
    Delivery tried =
        new Delivery(
            due.get(1).id(),
            first.notice(),
            "webhook",
            Delivery.State.WAITING,
            2,
            AT.plusSeconds(60),
            null,
            "no answer");
    change(
        database -> {
          new NoticeRecords(database).update(done);
          new NoticeRecords(database).update(tried);
        });
    assertEquals(
        List.of(due.get(2)), read(database -> new NoticeRecords(database).due(AT.plusSeconds(1))));
    assertEquals(
        List.of(done),
        read(database -> new NoticeRecords(database).newest(Delivery.State.DELIVERED, 9)));
    assertEquals(
        List.of(due.get(2), tried), read(database -> new NoticeRecords(database).newest(null, 2)));
    Map<String, NoticeStore.DeliveryCounts> counts =
        read(database -> new NoticeRecords(database).deliveryCounts());
    assertEquals(
        new NoticeStore.DeliveryCounts(1, 0, AT.plusSeconds(1), null, null), counts.get("email"));
    assertEquals(
        new NoticeStore.DeliveryCounts(1, 0, null, null, "no answer"), counts.get("webhook"));
    assertEquals(
        Optional.of(AT), read(database -> new NoticeRecords(database).newestOf(NoticeKind.RAISED)));
    assertEquals(
        Optional.empty(),
        read(database -> new NoticeRecords(database).newestOf(NoticeKind.SUMMARY)));
  }

  @Test
  void aClaimedDeliveryIsNotDueAndWithoutAnOutcomePerhapsSent() {
    change(
        database ->
            new NoticeRecords(database).add(notice("one"), List.of("email", "page"), List.of()));
    List<Delivery> due = read(database -> new NoticeRecords(database).due(AT));
    Delivery email = due.get(0);
    Delivery page = due.get(1);
    change(
        database -> {
          NoticeStore store = new NoticeRecords(database);
          assertTrue(store.claim(email.id(), AT.plusSeconds(5)));
          assertFalse(store.claim(email.id(), AT.plusSeconds(6)));
          assertTrue(store.claim(page.id(), AT.plusSeconds(6)));
          assertEquals(List.of(), store.due(AT.plusSeconds(6)));
          store.update(page);
          assertEquals(List.of(page), store.due(AT.plusSeconds(6)));
        });
    change(
        database -> {
          assertEquals(1, new NoticeRecords(database).settleClaimed());
          assertEquals(0, new NoticeRecords(database).settleClaimed());
          assertFalse(new NoticeRecords(database).claim(email.id(), AT));
        });
    assertEquals(List.of(page), read(database -> new NoticeRecords(database).due(AT)));
    Delivery perhaps =
        read(database -> new NoticeRecords(database).newest(Delivery.State.PERHAPS_SENT, 9)).get(0);
    assertEquals(email.id(), perhaps.id());
    assertEquals(AT.plusSeconds(5), perhaps.settledAt());
    assertEquals(1, perhaps.attempts());
  }

  @Test
  void statesOfNotificationAndTroublesAreReplacedAndRemoved() {
    Trouble trouble = new Trouble(Trouble.Kind.DISK, AT, null, "full soon");
    Trouble ended = new Trouble(Trouble.Kind.DISK, AT, AT.plusSeconds(9), "free again");
    change(
        database -> {
          NoticeStore store = new NoticeRecords(database);
          store.saveStates(List.of(state("7", null), state("8", null)), Set.of());
          store.saveStates(List.of(state("7", AT.plusSeconds(1))), Set.of("8"));
          store.put(trouble);
          store.put(ended);
        });
    assertEquals(
        Map.of("7", state("7", AT.plusSeconds(1))),
        read(database -> new NoticeRecords(database).notificationStates()));
    assertEquals(List.of(ended), read(database -> new NoticeRecords(database).troubles()));
  }

  @Test
  void peopleTheirSessionsAndTokensSurviveARestart() {
    long ada = read(database -> new AccessRecords(database).addPerson(person(0, "Ada", Role.OWN)));
    long ida = read(database -> new AccessRecords(database).addPerson(person(0, "Ida", Role.TEND)));
    Session session = new Session(0, "hash", ida, AT, AT, true, "10.0.0.3", "phone");
    long number = read(database -> new AccessRecords(database).addSession(session));
    ApiToken token = new ApiToken(0, "lamp", Role.TEND, "h", AT, AT.plusSeconds(99), null);
    long tokenId = read(database -> new AccessRecords(database).addToken(token));
    change(
        database -> {
          AccessRecords records = new AccessRecords(database);
          assertThrows(StoreException.class, () -> records.addSession(session));
          records.changePerson(person(ida, "Ida", Role.OWN));
          records.usedSession(number, AT.plusSeconds(5));
          records.usedToken(tokenId, AT.plusSeconds(6));
        });
    assertEquals(
        List.of(person(ada, "Ada", Role.OWN), person(ida, "Ida", Role.OWN)),
        read(database -> new AccessRecords(database).people()));
    assertEquals(
        List.of(new Session(number, "hash", ida, AT, AT.plusSeconds(5), true, "10.0.0.3", "phone")),
        read(database -> new AccessRecords(database).sessions()));
    assertEquals(
        List.of(
            new ApiToken(
                tokenId, "lamp", Role.TEND, "h", AT, AT.plusSeconds(99), AT.plusSeconds(6))),
        read(database -> new AccessRecords(database).tokens()));
    change(
        database -> {
          new AccessRecords(database).removePerson(ida);
          new AccessRecords(database).removeToken(tokenId);
        });
    assertEquals(List.of(), read(database -> new AccessRecords(database).sessions()));
    assertEquals(List.of(), read(database -> new AccessRecords(database).tokens()));
    assertEquals(1, read(database -> new AccessRecords(database).people()).size());
  }

  private static Person person(long id, String name, Role role) {
    return new Person(id, name, role, "hash of " + name);
  }

  @Test
  void importProfilesAndTheLastKnownTimeSurviveARestart() {
    ImportProfile profile = new ImportProfile("Logger", ImportChoices.NONE);
    change(
        database -> {
          new ImportProfileRecords(database).save(profile);
          new ImportProfileRecords(database).save(profile);
          assertEquals(Optional.empty(), new ClockRecords(database).lastSeen());
          new ClockRecords(database).store(AT);
          new ClockRecords(database).store(AT.plusSeconds(1));
        });
    assertEquals(List.of(profile), read(database -> new ImportProfileRecords(database).all()));
    assertEquals(
        Optional.of(AT.plusSeconds(1)), read(database -> new ClockRecords(database).lastSeen()));
    assertEquals(true, read(database -> new ImportProfileRecords(database).remove("Logger")));
    assertEquals(false, read(database -> new ImportProfileRecords(database).remove("Logger")));
  }
}
