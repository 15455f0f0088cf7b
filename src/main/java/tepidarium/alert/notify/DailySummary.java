package tepidarium.alert.notify;

import java.util.List;

/**
 * What the daily summary says besides alerts and troubles.
 *
 * @param containers number of containers
 * @param sensors number of sensors heard within the last 24 h
 * @param disk free space and when it will be used up, in words; empty if not known
 * @param batteries batteries that may be empty within 30 days, the first to be empty first
 */
public record DailySummary(int containers, int sensors, String disk, List<LowBattery> batteries) {
  /**
   * A battery that may soon be empty.
   *
   * @param days days until it is empty, at least 0
   */
  public record LowBattery(String sensor, double days) {}

  public DailySummary {
    batteries = List.copyOf(batteries);
  }
}
