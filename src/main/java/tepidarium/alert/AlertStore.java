package tepidarium.alert;

import java.util.List;

/** Keeps alerts. What a method wrote has reached the disk when it returns. */
public interface AlertStore {
  /** Adds the alert, or replaces the one with its id. */
  void put(Alert alert);

  /** Those that are active or not acknowledged, oldest first. */
  List<Alert> open();

  /** The newest ones, open or not, newest first. */
  List<Alert> newest(int most);

  /** The highest id ever given; 0 when there was none. */
  long lastId();
}
