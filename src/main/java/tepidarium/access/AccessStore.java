package tepidarium.access;

import java.time.Instant;
import java.util.List;

/** Stores people, sessions and tokens. Each change is durable when its method returns. */
public interface AccessStore {
  List<Person> people();

  /** Adds a person; returns the new id. */
  long addPerson(Person person);

  /** Replaces the role and the password hash of a person. */
  void changePerson(Person person);

  /** Removes a person and the person's sessions. */
  void removePerson(long id);

  List<Session> sessions();

  /** Adds a session; returns the new id. */
  long addSession(Session session);

  void usedSession(long id, Instant at);

  void removeSession(long id);

  List<ApiToken> tokens();

  /** Adds a token; returns the new id. */
  long addToken(ApiToken token);

  void usedToken(long id, Instant at);

  void removeToken(long id);
}
