package tepidarium.rollup;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.zip.CRC32C;
import java.util.zip.Checksum;
import tepidarium.container.Container;
import tepidarium.container.Placement;
import tepidarium.container.Register;

/**
 * One number for all that a container's hours depend on besides the readings: when any of it is
 * corrected, hours kept on another fingerprint no longer count and are worked out again.
 */
final class SettingsFingerprint {
  private SettingsFingerprint() {}

  static long of(Container container, Register register, Duration maxGap) {
    StringBuilder facts = new StringBuilder();
    facts
        .append(container.settings().baseC())
        .append(' ')
        .append(container.settings().ceilingC())
        .append(' ')
        .append(container.band())
        .append(' ')
        .append(maxGap);
    for (Placement placement : register.placementsIn(container.id())) {
      facts.append('\n').append(placement).append(register.calibration(placement.sensor()));
    }
    byte[] bytes = facts.toString().getBytes(StandardCharsets.UTF_8);
    // Two checks side by side, so that two different bases do not meet by chance.
    return (crc(bytes, 0) << 32) | crc(bytes, 1);
  }

  private static long crc(byte[] bytes, int salt) {
    Checksum checksum = new CRC32C();
    checksum.update(salt);
    checksum.update(bytes);
    return checksum.getValue();
  }
}
