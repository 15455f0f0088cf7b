package tepidarium.access;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** A store in memory that outlives the Access over it. */
final class MemoryAccess implements AccessStore {
  private final Map<Long, Person> people = new HashMap<>();
  private final Map<Long, Session> sessions = new HashMap<>();
  private final Map<Long, ApiToken> tokens = new HashMap<>();
  private long lastId;

  @Override
  public List<Person> people() {
    return new ArrayList<>(people.values());
  }

  @Override
  public long addPerson(Person person) {
    people.put(++lastId, new Person(lastId, person.name(), person.role(), person.passwordHash()));
    return lastId;
  }

  @Override
  public void changePerson(Person person) {
    people.put(person.id(), person);
  }

  @Override
  public void removePerson(long id) {
    people.remove(id);
    sessions.values().removeIf(session -> session.person() == id);
  }

  @Override
  public List<Session> sessions() {
    return new ArrayList<>(sessions.values());
  }

  @Override
  public long addSession(Session session) {
    sessions.put(++lastId, session.withId(lastId));
    return lastId;
  }

  @Override
  public void usedSession(long id, Instant at) {
    sessions.computeIfPresent(id, (same, session) -> session.usedAgain(at));
  }

  @Override
  public void removeSession(long id) {
    sessions.remove(id);
  }

  @Override
  public List<ApiToken> tokens() {
    return new ArrayList<>(tokens.values());
  }

  @Override
  public long addToken(ApiToken token) {
    tokens.put(++lastId, token.withId(lastId));
    return lastId;
  }

  @Override
  public void usedToken(long id, Instant at) {
    tokens.computeIfPresent(id, (same, token) -> token.usedAgain(at));
  }

  @Override
  public void removeToken(long id) {
    tokens.remove(id);
  }
}
