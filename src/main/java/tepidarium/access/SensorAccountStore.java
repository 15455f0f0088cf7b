package tepidarium.access;

import java.util.List;
import java.util.function.Supplier;

/** Stores the accounts of sensors. Each change is durable when its method returns. */
public interface SensorAccountStore {
  List<SensorAccount> all();

  void add(SensorAccount account);

  /** Replaces the hash of the password and the topics. */
  void change(SensorAccount account);

  void remove(String name);

  /**
   * Where sensors without an account are accepted unless a setting says so. It is decided at the
   * first start and then stays.
   *
   * @param first decides it; called at the first start only
   */
  AnonymousSensors anonymous(Supplier<AnonymousSensors> first);
}
