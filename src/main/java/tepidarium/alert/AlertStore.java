package tepidarium.alert;

import java.util.List;
import tepidarium.reading.Span;

/** Keeps alerts. What a method wrote has reached the disk when it returns. */
public interface AlertStore {
  /** Adds the alert, or replaces the one with its id. */
  void put(Alert alert);

  /** Those that are active or not acknowledged, oldest first. */
  List<Alert> open();

  /** The newest ones, open or not, newest first. */
  List<Alert> newest(int most);

  /** Those raised before the end of the span and not returned before its start, by when raised. */
  List<Alert> within(Span span);

  /** The highest id ever given; 0 when there was none. */
  long lastId();
}
