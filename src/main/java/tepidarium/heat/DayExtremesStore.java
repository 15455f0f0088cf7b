package tepidarium.heat;

import java.time.LocalDate;
import java.util.List;
import tepidarium.container.ContainerId;

/**
 * Stores the lowest and highest temperatures of days, entered by hand. Each method is one
 * transaction; the data are on disk when it returns.
 */
public interface DayExtremesStore {
  /** All days of a container, oldest first. */
  List<DayExtremes> days(ContainerId container);

  /** Stores a day; replaces an earlier entry for it. */
  void put(ContainerId container, DayExtremes day);

  /** Removes a day; false if there is no entry for it. */
  boolean remove(ContainerId container, LocalDate day);
}
