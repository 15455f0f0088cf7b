package tepidarium.heat;

import java.time.LocalDate;
import java.util.List;
import tepidarium.container.ContainerId;

/**
 * Keeps the lowest and highest temperatures of days that were entered by hand. Each method is one
 * transaction and has reached the disk when it returns.
 */
public interface DayExtremesStore {
  /** All days of a container, oldest first. */
  List<DayExtremes> days(ContainerId container);

  /** Keeps a day in place of what was entered for it before. */
  void put(ContainerId container, DayExtremes day);

  /** Removes a day; false when nothing was entered for it. */
  boolean remove(ContainerId container, LocalDate day);
}
