package tepidarium.access;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * The accounts of sensors that were made on the page Sensors, at most {@value #MAX_ACCOUNTS}. The
 * service makes the passwords: 100 random bits. Nobody can guess them, so a fast hash is enough. A
 * slow one would keep the broker's network threads busy when thousands of sensors connect again.
 * Thread-safe.
 */
public final class SensorAccounts {
  static final int MAX_ACCOUNTS = 10_000;

  private final SensorAccountStore store;
  private final Set<String> taken;
  private final Map<String, SensorAccount> accounts = new ConcurrentHashMap<>();
  private volatile Consumer<String> ended = name -> {};

  /** An account with its new password, which is not stored. */
  public record NewPassword(SensorAccount account, String password) {
    /** Leaves out the password, because this text may be logged. */
    @Override
    public String toString() {
      return "NewPassword[" + account + ']';
    }
  }

  /**
   * Reads the stored accounts.
   *
   * @param taken names that no account may have, such as those in the settings
   */
  public SensorAccounts(SensorAccountStore store, Set<String> taken) {
    this.store = store;
    this.taken = Set.copyOf(taken);
    store.all().forEach(account -> accounts.put(account.name(), account));
  }

  /**
   * Sets what ends the connections of an account whose password or topics were replaced, or that
   * was removed.
   */
  public void onEnd(Consumer<String> disconnect) {
    ended = disconnect;
  }

  /** All accounts by name. */
  public List<SensorAccount> all() {
    return accounts.values().stream()
        .sorted(Comparator.comparing(SensorAccount::name, String.CASE_INSENSITIVE_ORDER))
        .toList();
  }

  public int count() {
    return accounts.size();
  }

  public Optional<SensorAccount> named(String name) {
    return Optional.ofNullable(accounts.get(name));
  }

  /**
   * Adds an account.
   *
   * @throws InvalidInput if the name is taken or a topic is no topic filter
   */
  public synchronized NewPassword add(
      String name, List<String> topics, List<String> reads, Instant now) {
    if (accounts.containsKey(name) || taken.contains(name)) {
      throw new InvalidInput(
          "name", "belongs to another account already. Choose another", InputRule.TAKEN.with(name));
    }
    if (accounts.size() >= MAX_ACCOUNTS) {
      throw InvalidInput.full("accounts", MAX_ACCOUNTS);
    }
    String password = Passwords.randomForSensor();
    SensorAccount added = new SensorAccount(name, Secret.hash(password), topics, reads, now);
    store.add(added);
    accounts.put(name, added);
    return new NewPassword(added, password);
  }

  /**
   * Replaces the password of an account and ends its connections.
   *
   * @throws NoSuchElementException if there is no such account
   */
  public NewPassword replacePassword(String name) {
    String password = Passwords.randomForSensor();
    SensorAccount changed;
    synchronized (this) {
      changed = required(name).withPasswordHash(Secret.hash(password));
      store.change(changed);
      accounts.put(name, changed);
    }
    ended.accept(name);
    return new NewPassword(changed, password);
  }

  /**
   * Replaces the topics of an account. Ends its connections, because the broker keeps the rights of
   * a connection until it ends.
   *
   * @throws NoSuchElementException if there is no such account
   * @throws InvalidInput if a topic is no topic filter, or there is none
   */
  public SensorAccount changeTopics(String name, List<String> topics, List<String> reads) {
    SensorAccount changed;
    synchronized (this) {
      changed = required(name).withTopics(topics, reads);
      store.change(changed);
      accounts.put(name, changed);
    }
    ended.accept(name);
    return changed;
  }

  /**
   * Removes an account and ends its connections.
   *
   * @throws NoSuchElementException if there is no such account
   */
  public void remove(String name) {
    synchronized (this) {
      required(name);
      store.remove(name);
      accounts.remove(name);
    }
    ended.accept(name);
  }

  private SensorAccount required(String name) {
    return named(name)
        .orElseThrow(() -> new NoSuchElementException("there is no account of this name"));
  }
}
