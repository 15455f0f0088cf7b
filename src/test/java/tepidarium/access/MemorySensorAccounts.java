package tepidarium.access;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Keeps accounts of sensors in memory. */
public final class MemorySensorAccounts implements SensorAccountStore {
  private final Map<String, SensorAccount> accounts = new TreeMap<>();
  private @Nullable AnonymousSensors anonymous;

  @Override
  public List<SensorAccount> all() {
    return new ArrayList<>(accounts.values());
  }

  @Override
  public void add(SensorAccount account) {
    accounts.put(account.name(), account);
  }

  @Override
  public void change(SensorAccount account) {
    accounts.put(account.name(), account);
  }

  @Override
  public void remove(String name) {
    accounts.remove(name);
  }

  @Override
  public AnonymousSensors anonymous(Supplier<AnonymousSensors> first) {
    AnonymousSensors decided = anonymous == null ? first.get() : anonymous;
    anonymous = decided;
    return decided;
  }
}
