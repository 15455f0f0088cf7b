package tepidarium.access;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tepidarium.reading.InvalidInput;

class AccessTest {
  private static final Instant NOW = Instant.parse("2026-03-01T06:00:00Z");
  private static final String PASSWORD = "warm dark moist";
  // One hash for all tests: bcrypt is slow on purpose.
  private static final String HASH = Passwords.hash(PASSWORD);

  private final MemoryAccess store = new MemoryAccess();
  private final Access access = new Access(store);

  AccessTest() {
    access.setOwner("owner", HASH);
  }

  private SignIn signIn(String name, String password, Instant at) {
    return access.signIn(new Access.Attempt(name, password, "192.168.1.7", "", false), at);
  }

  private SignIn.Started started(boolean yearLong) {
    return assertInstanceOf(
        SignIn.Started.class,
        access.signIn(new Access.Attempt("Owner", PASSWORD, "192.168.1.7", "", yearLong), NOW));
  }

  private Optional<Identity> visit(SignIn.Started session, Duration later) {
    return access.bySession(session.secret(), NOW.plus(later));
  }

  @Test
  void aSessionEndsAfterTwelveHoursWithoutARequest() {
    SignIn.Started session = started(false);
    assertEquals("owner", visit(session, Duration.ofHours(11)).orElseThrow().name());
    assertTrue(visit(session, Duration.ofHours(22)).isPresent());
    assertTrue(visit(session, Duration.ofHours(34)).isEmpty());
    assertTrue(store.sessions().isEmpty());
  }

  @Test
  void aYearLongSessionNeedsNoRequests() {
    SignIn.Started session = started(true);
    assertTrue(visit(session, Duration.ofDays(364)).isPresent());
    assertTrue(visit(session, Duration.ofDays(365)).isEmpty());
  }

  @Test
  void aSessionSurvivesARestart() {
    SignIn.Started session = started(false);
    visit(session, Duration.ofHours(11));
    Access restarted = new Access(store);
    Instant later = NOW.plus(Duration.ofHours(20));
    assertEquals("owner", restarted.bySession(session.secret(), later).orElseThrow().name());
  }

  @Test
  void onlyHashesAreStored() {
    SignIn.Started session = started(false);
    Access.NewToken token = access.addToken("logger", Role.LOOK, 30, NOW);
    List<Object> stored = new ArrayList<>(store.people());
    stored.addAll(store.sessions());
    stored.addAll(store.tokens());
    stored.add(store.people().get(0).passwordHash());
    stored.add(store.sessions().get(0).hash());
    stored.add(store.tokens().get(0).hash());
    for (String secret : List.of(session.secret(), token.secret(), PASSWORD)) {
      assertFalse(stored.toString().contains(secret));
    }
    assertEquals(43, session.secret().length(), "256 bits in Base64");
  }

  @Test
  void aWrongNameIsAnsweredLikeAWrongPassword() {
    assertEquals(new SignIn.Wrong(true), signIn("owner", "warm dark dry", NOW));
    assertEquals(new SignIn.Wrong(false), signIn("nobody", PASSWORD, NOW));
    List<GuessLimit.WrongGuess> noted = access.guesses().wrongGuesses(NOW);
    assertEquals(2, noted.size());
    assertEquals(null, noted.get(0).person());
    assertEquals("owner", noted.get(1).person());
  }

  @Test
  void aNewPasswordEndsTheOtherSessionsOfThatPerson() {
    SignIn.Started phone = started(true);
    SignIn.Started desk = started(false);
    Identity atDesk = visit(desk, Duration.ZERO).orElseThrow();
    assertThrows(
        InvalidInput.class,
        () -> access.changeOwnPassword(atDesk, "not it", "dark and moist", "10.0.0.1", NOW));
    assertTrue(access.lasts(visit(phone, Duration.ZERO).orElseThrow(), NOW));
    Identity onPhone = visit(phone, Duration.ZERO).orElseThrow();
    access.changeOwnPassword(atDesk, PASSWORD, "dark and moist", "10.0.0.1", NOW);
    assertFalse(access.lasts(onPhone, NOW));
    assertTrue(visit(phone, Duration.ZERO).isEmpty());
    assertTrue(visit(desk, Duration.ZERO).isPresent());
    assertInstanceOf(SignIn.Started.class, signIn("owner", "dark and moist", NOW));
  }

  @Test
  void aPasswordThatIsSetOnTheMachineEndsAllSessions() {
    SignIn.Started session = started(true);
    access.setOwner("OWNER", HASH);
    assertTrue(visit(session, Duration.ZERO).isEmpty());
    assertEquals(1, access.people().size());
  }

  @Test
  void aNewRoleHoldsAtOnce() {
    long id = access.addPerson("Ada", Role.TEND, "heat and moss").id();
    SignIn.Started session =
        assertInstanceOf(SignIn.Started.class, signIn("ada", "heat and moss", NOW));
    assertEquals(Role.TEND, visit(session, Duration.ZERO).orElseThrow().role());
    access.changePerson(id, Role.LOOK, null, null);
    assertEquals(Role.LOOK, visit(session, Duration.ZERO).orElseThrow().role());
    access.removePerson(id);
    assertTrue(visit(session, Duration.ZERO).isEmpty());
  }

  @Test
  void oneOwnerAlwaysStays() {
    long owner = access.people().get(0).id();
    assertThrows(InvalidInput.class, () -> access.removePerson(owner));
    assertThrows(InvalidInput.class, () -> access.changePerson(owner, Role.TEND, null, null));
    assertEquals(Role.OWN, access.person(owner).role());
  }

  @Test
  void aNameBelongsToOnePerson() {
    assertThrows(InvalidInput.class, () -> access.addPerson(" Owner ", Role.LOOK, "heat and moss"));
    assertThrows(InvalidInput.class, () -> access.addPerson(" ", Role.LOOK, "heat and moss"));
  }

  @Test
  void aFurtherSessionEndsTheOneThatWasNotUsedForLongest() {
    SignIn.Started first = started(true);
    visit(first, Duration.ofMinutes(1));
    SignIn.Started second = started(true);
    for (int i = 2; i <= Sessions.MAX_PER_PERSON; i++) {
      started(true);
    }
    assertTrue(visit(first, Duration.ofMinutes(2)).isPresent());
    assertTrue(visit(second, Duration.ofMinutes(2)).isEmpty());
    assertEquals(Sessions.MAX_PER_PERSON, store.sessions().size());
  }

  @Test
  void aTokenWorksUntilItEndsOrIsRemoved() {
    Access.NewToken token = access.addToken("logger", Role.TEND, 30, NOW);
    Identity identity = access.byToken(token.secret(), NOW.plus(Duration.ofDays(29))).orElseThrow();
    assertEquals(Role.TEND, identity.role());
    assertEquals(NOW.plus(Duration.ofDays(29)), access.tokens().get(0).usedAt());
    assertTrue(access.byToken(token.secret(), NOW.plus(Duration.ofDays(30))).isEmpty());
    assertTrue(access.removeToken(token.token().id()));
    assertTrue(access.byToken(token.secret(), NOW).isEmpty());
    assertFalse(access.lasts(identity, NOW));
    assertThrows(InvalidInput.class, () -> access.addToken("logger", Role.LOOK, 0, NOW));
  }

  @Test
  void aTokenIsNoSession() {
    Access.NewToken token = access.addToken("logger", Role.OWN, 30, NOW);
    assertTrue(access.bySession(token.secret(), NOW).isEmpty());
    assertTrue(access.byToken(started(true).secret(), NOW).isEmpty());
  }
}
