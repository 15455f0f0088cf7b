package tepidarium.access;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tepidarium.reading.Checks;
import tepidarium.reading.InvalidInput;

/**
 * The tokens for programs, at most {@value #MAX_TOKENS}. A token that is over stays in the list
 * until it is removed, so that its owner sees why a program is refused. Guarded by the monitor of
 * Access.
 */
final class Tokens {
  static final int MAX_TOKENS = 100;
  static final int MAX_NAME_CHARACTERS = 60;

  /** Begins each token, so that people and scanners recognise one. */
  static final String PREFIX = "tepidarium_";

  private final AccessStore store;
  private final Map<String, ApiToken> byHash = new HashMap<>();
  private final Map<Long, Instant> written = new HashMap<>();

  Tokens(AccessStore store) {
    this.store = store;
    store.tokens().forEach(token -> byHash.put(token.hash(), token));
  }

  List<ApiToken> all() {
    List<ApiToken> sorted = new ArrayList<>(byHash.values());
    sorted.sort(Comparator.comparing(ApiToken::id));
    return sorted;
  }

  ApiToken add(ApiToken draft) {
    String name = draft.name();
    if (name.isBlank() || name.length() > MAX_NAME_CHARACTERS) {
      throw InvalidInput.length("name", MAX_NAME_CHARACTERS);
    }
    Checks.noControls("name", name);
    if (byHash.size() >= MAX_TOKENS) {
      throw InvalidInput.full("tokens", MAX_TOKENS);
    }
    ApiToken added = draft.withId(store.addToken(draft));
    byHash.put(added.hash(), added);
    return added;
  }

  /** Finds a token and notes that it was used; empty if it is over or unknown. */
  Optional<ApiToken> use(String secret, Instant now) {
    ApiToken token = byHash.get(Secret.hash(secret));
    if (token == null || token.isOver(now)) {
      return Optional.empty();
    }
    ApiToken used = token.usedAgain(now);
    byHash.put(used.hash(), used);
    Instant before = written.get(used.id());
    if (before == null || Duration.between(before, now).compareTo(Sessions.WRITE_PERIOD) >= 0) {
      written.put(used.id(), now);
      store.usedToken(used.id(), now);
    }
    return Optional.of(used);
  }

  /** Whether a token has neither ended nor been removed. */
  boolean lasts(long id, Instant now) {
    return byHash.values().stream().anyMatch(t -> t.id() == id && !t.isOver(now));
  }

  boolean remove(long id) {
    Optional<ApiToken> token = byHash.values().stream().filter(t -> t.id() == id).findFirst();
    token.ifPresent(
        found -> {
          byHash.remove(found.hash());
          written.remove(id);
          store.removeToken(id);
        });
    return token.isPresent();
  }
}
