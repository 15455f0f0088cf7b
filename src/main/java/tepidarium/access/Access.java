package tepidarium.access;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * Signs people in, recognises their sessions and tokens, and changes people, sessions and tokens.
 * Thread-safe. A password is checked outside the monitor, because that takes long.
 */
public final class Access {
  /** Longest time that a token may last. */
  public static final int MAX_TOKEN_DAYS = 3_650;

  private static final int MAX_DEVICE_CHARACTERS = 200;

  private final People people;
  private final Sessions sessions;
  private final Tokens tokens;
  private final Passwords passwords = new Passwords();
  private final GuessLimit guesses = new GuessLimit();

  public Access(AccessStore store) {
    people = new People(store);
    sessions = new Sessions(store);
    tokens = new Tokens(store);
  }

  /**
   * A request to sign in.
   *
   * @param device what the browser says about itself
   * @param yearLong whether the session is to last a year
   */
  public record Attempt(
      String name, String password, String address, String device, boolean yearLong) {
    /** Leaves out the password and the name, because this text may be logged. */
    @Override
    public String toString() {
      return "Attempt[" + address + ']';
    }
  }

  /** A new token and its secret, which is not stored. */
  public record NewToken(ApiToken token, String secret) {
    /** Leaves out the secret, because this text may be logged. */
    @Override
    public String toString() {
      return "NewToken[" + token + ']';
    }
  }

  public GuessLimit guesses() {
    return guesses;
  }

  /**
   * Checks name and password and starts a session.
   *
   * @throws Passwords.Busy if too many sign-ins wait already
   */
  public SignIn signIn(Attempt attempt, Instant now) {
    Optional<Person> person = named(attempt.name());
    boolean known = person.isPresent() && isKnownAt(person.get().id(), attempt.address());
    Duration wait = guesses.begin(attempt.address(), attempt.name(), known, now);
    if (!wait.isZero()) {
      return new SignIn.Slowed(wait);
    }
    boolean right = passwords.matches(attempt.password(), person);
    if (!right || person.isEmpty()) {
      guesses.wrong(attempt.address(), person.map(Person::name).orElse(null), now);
      return new SignIn.Wrong(person.isPresent());
    }
    guesses.right(attempt.address(), attempt.name(), known);
    return start(person.get(), attempt, now);
  }

  private synchronized Optional<Person> named(String name) {
    return people.named(name);
  }

  private synchronized boolean isKnownAt(long person, String address) {
    return sessions.of(person).stream().anyMatch(session -> session.address().equals(address));
  }

  /** Starts the session, unless the person was changed while the password was checked. */
  private synchronized SignIn start(Person person, Attempt attempt, Instant now) {
    if (!people.person(person.id()).equals(Optional.of(person))) {
      return new SignIn.Wrong(true);
    }
    String secret = Secret.create();
    String device =
        attempt.device().length() <= MAX_DEVICE_CHARACTERS
            ? attempt.device()
            : attempt.device().substring(0, MAX_DEVICE_CHARACTERS);
    Session draft =
        new Session(
            0,
            Secret.hash(secret),
            person.id(),
            now,
            now,
            attempt.yearLong(),
            attempt.address(),
            device);
    return new SignIn.Started(sessions.start(draft, now), person, secret);
  }

  /** Finds whose session a secret belongs to; empty if the session has ended or never was. */
  public synchronized Optional<Identity> bySession(String secret, Instant now) {
    return sessions.use(secret, now).flatMap(this::identity);
  }

  private Optional<Identity> identity(Session session) {
    return people
        .person(session.person())
        .map(p -> new Identity(p.name(), p.role(), p.id(), session.id(), null));
  }

  /** Finds the token of a secret; empty if it has ended or there was none. */
  public synchronized Optional<Identity> byToken(String secret, Instant now) {
    return tokens
        .use(secret, now)
        .map(token -> new Identity(token.name(), token.role(), null, null, token.id()));
  }

  /** Whether the session or token of an earlier request has not ended. */
  public synchronized boolean lasts(Identity identity, Instant now) {
    return identity.session() != null
        ? sessions.lasts(identity.session(), now)
        : identity.token() != null && tokens.lasts(identity.token(), now);
  }

  public synchronized List<Person> people() {
    return people.all();
  }

  public synchronized List<Session> sessions(Instant now) {
    return sessions.all().stream().filter(session -> !session.isOver(now)).toList();
  }

  public synchronized List<ApiToken> tokens() {
    return tokens.all();
  }

  /** Adds a person. */
  public Person addPerson(String name, Role role, String password) {
    Passwords.check(name, password);
    String hash = Passwords.hash(password);
    synchronized (this) {
      return people.add(name, role, hash);
    }
  }

  /**
   * Changes the role or the password of a person. A new password ends the person's sessions, except
   * the one that changes it.
   *
   * @param role null to keep the role
   * @param password null to keep the password
   * @param kept id of the session that changes the person; null for none
   * @throws NoSuchElementException if there is no such person
   */
  public Person changePerson(
      long id, @Nullable Role role, @Nullable String password, @Nullable Long kept) {
    Person before = person(id);
    String hash = null;
    if (password != null) {
      Passwords.check(before.name(), password);
      hash = Passwords.hash(password);
    }
    synchronized (this) {
      Person current = person(id);
      Person changed = role == null ? current : current.withRole(role);
      changed = hash == null ? changed : changed.withPasswordHash(hash);
      people.change(changed);
      if (hash != null) {
        sessions.endIf(s -> s.person() == id && (kept == null || s.id() != kept));
      }
      return changed;
    }
  }

  /**
   * Changes a person's own password. Ends the person's other sessions.
   *
   * @return the time to wait after too many wrong guesses; zero if the password was changed
   * @throws InvalidInput if the current password is wrong
   */
  public Duration changeOwnPassword(
      Identity identity, String current, String password, String address, Instant now) {
    Person person = person(identity.person() == null ? -1 : identity.person());
    Duration wait = guesses.begin(address, person.name(), true, now);
    if (!wait.isZero()) {
      return wait;
    }
    if (!passwords.matches(current, Optional.of(person))) {
      guesses.wrong(address, person.name(), now);
      throw new InvalidInput("current", "is not your password", InputRule.WRONG_PASSWORD.with());
    }
    guesses.right(address, person.name(), true);
    changePerson(person.id(), null, password, identity.session());
    return Duration.ZERO;
  }

  /** Finds a person by id. */
  public synchronized Person person(long id) {
    return people
        .person(id)
        .orElseThrow(() -> new NoSuchElementException("there is no person " + id));
  }

  /** Removes a person and ends the person's sessions. */
  public synchronized void removePerson(long id) {
    person(id);
    people.remove(id);
    sessions.forget(id);
  }

  /**
   * Sets the password of a person with the role own, ends the person's sessions and forgets wrong
   * guesses. Adds the person if there is none of this name.
   *
   * @param passwordHash see {@link Passwords#hash}
   */
  public synchronized void setOwner(String name, String passwordHash) {
    Optional<Person> person = people.named(name);
    if (person.isEmpty()) {
      people.add(name, Role.OWN, passwordHash);
    } else {
      long id = person.get().id();
      sessions.endIf(session -> session.person() == id);
      people.change(person.get().withRole(Role.OWN).withPasswordHash(passwordHash));
    }
    guesses.forget(name);
  }

  /**
   * Ends a session.
   *
   * @return whether there was one
   */
  public synchronized boolean endSession(long id) {
    Optional<Session> session = sessions.session(id);
    session.ifPresent(sessions::end);
    return session.isPresent();
  }

  public synchronized Optional<Session> session(long id) {
    return sessions.session(id);
  }

  /** Adds a token that lasts the given number of days. */
  public synchronized NewToken addToken(String name, Role role, int days, Instant now) {
    if (days < 1 || days > MAX_TOKEN_DAYS) {
      throw InvalidInput.whole("days", 1, MAX_TOKEN_DAYS);
    }
    String secret = Tokens.PREFIX + Secret.create();
    ApiToken draft =
        new ApiToken(
            0, name.strip(), role, Secret.hash(secret), now, now.plus(Duration.ofDays(days)), null);
    return new NewToken(tokens.add(draft), secret);
  }

  /**
   * Removes a token; requests with it are refused from now on.
   *
   * @return whether there was one
   */
  public synchronized boolean removeToken(long id) {
    return tokens.remove(id);
  }
}
