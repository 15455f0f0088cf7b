package tepidarium.reading;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What a sensor reports about itself beside its readings. At least one value is present.
 *
 * @param at event time of the newest message that reported one of the values
 * @param rssiDbm received signal strength, −150 to 0 dBm; null if it was never sent
 * @param firmware firmware version, 1 to 40 characters; null if it was never sent
 */
public record DeviceStatus(
    SensorId sensor, Instant at, @Nullable Integer rssiDbm, @Nullable String firmware) {
  private static final int LEAST_DBM = -150;
  private static final int LONGEST_FIRMWARE = 40;

  public DeviceStatus {
    if (rssiDbm != null && !(rssiDbm >= LEAST_DBM && rssiDbm <= 0)) {
      throw new IllegalArgumentException("signal strength " + rssiDbm + " dBm is implausible");
    }
    if (firmware != null && (firmware.isEmpty() || firmware.length() > LONGEST_FIRMWARE)) {
      throw new IllegalArgumentException("a firmware version has 1 to 40 characters");
    }
    if (rssiDbm == null && firmware == null) {
      throw new IllegalArgumentException("a status needs at least one value");
    }
  }

  /**
   * Creates a status from values as they were sent. An implausible value counts as not sent.
   *
   * @param rssiDbm NaN if it was not sent
   * @return null if no value is left
   */
  public static @Nullable DeviceStatus ofSent(
      SensorId sensor, Instant at, double rssiDbm, @Nullable String firmware) {
    Integer signal =
        rssiDbm >= LEAST_DBM && rssiDbm <= 0 ? Integer.valueOf((int) Math.round(rssiDbm)) : null;
    String version = firmware == null ? "" : firmware.strip();
    boolean readable =
        !version.isEmpty()
            && version.length() <= LONGEST_FIRMWARE
            && version.chars().noneMatch(Character::isISOControl);
    return signal == null && !readable
        ? null
        : new DeviceStatus(sensor, at, signal, readable ? version : null);
  }

  /** Returns the newest of each value of this and another status of the same sensor. */
  public DeviceStatus with(DeviceStatus other) {
    boolean older = other.at.isBefore(at);
    return older ? completed(other) : other.completed(this);
  }

  /** Returns this status, with values that it lacks from an older one. */
  private DeviceStatus completed(DeviceStatus older) {
    return new DeviceStatus(
        sensor,
        at,
        rssiDbm == null ? older.rssiDbm : rssiDbm,
        firmware == null ? older.firmware : firmware);
  }
}
