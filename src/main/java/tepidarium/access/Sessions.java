package tepidarium.access;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * The sessions that have not ended. They survive a restart. Guarded by the monitor of Access.
 *
 * <p>A person has at most {@value #MAX_PER_PERSON}; a further one ends the one that was not used
 * for longest.
 */
final class Sessions {
  static final int MAX_PER_PERSON = 20;

  /** The time of the latest request is written at most this often. */
  static final Duration WRITE_PERIOD = Duration.ofMinutes(5);

  private static final Comparator<Session> BY_USE =
      Comparator.comparing(Session::usedAt).thenComparing(Session::id);

  private final AccessStore store;
  private final Map<String, Session> byHash = new HashMap<>();
  private final Map<Long, Instant> written = new HashMap<>();

  Sessions(AccessStore store) {
    this.store = store;
    store.sessions().forEach(this::keep);
  }

  private void keep(Session session) {
    byHash.put(session.hash(), session);
    written.put(session.id(), session.usedAt());
  }

  /**
   * Starts a session.
   *
   * @param draft the session with the id 0
   */
  Session start(Session draft, Instant now) {
    endIf(session -> session.isOver(now));
    List<Session> others = of(draft.person()).stream().sorted(BY_USE).toList();
    others.stream().limit(Math.max(0, others.size() - MAX_PER_PERSON + 1)).forEach(this::end);
    Session started = draft.withId(store.addSession(draft));
    keep(started);
    return started;
  }

  List<Session> all() {
    return List.copyOf(byHash.values());
  }

  List<Session> of(long person) {
    return byHash.values().stream().filter(session -> session.person() == person).toList();
  }

  Optional<Session> session(long id) {
    return byHash.values().stream().filter(session -> session.id() == id).findFirst();
  }

  /** Finds the session of a secret and notes that it was used; empty if it is over or unknown. */
  Optional<Session> use(String secret, Instant now) {
    Session session = byHash.get(Secret.hash(secret));
    if (session == null) {
      return Optional.empty();
    }
    if (session.isOver(now)) {
      end(session);
      return Optional.empty();
    }
    Session used = session.usedAt().isBefore(now) ? session.usedAgain(now) : session;
    byHash.put(used.hash(), used);
    Instant before = written.getOrDefault(used.id(), used.startedAt());
    if (Duration.between(before, now).compareTo(WRITE_PERIOD) >= 0) {
      written.put(used.id(), now);
      store.usedSession(used.id(), now);
    }
    return Optional.of(used);
  }

  /** Whether a session has not ended, without using it. */
  boolean lasts(long id, Instant now) {
    return session(id).filter(session -> !session.isOver(now)).isPresent();
  }

  void end(Session session) {
    byHash.remove(session.hash());
    written.remove(session.id());
    store.removeSession(session.id());
  }

  /** Drops the sessions of a person who was removed from the store. */
  void forget(long person) {
    of(person)
        .forEach(
            session -> {
              byHash.remove(session.hash());
              written.remove(session.id());
            });
  }

  void endIf(Predicate<Session> ended) {
    all().stream().filter(ended).forEach(this::end);
  }
}
