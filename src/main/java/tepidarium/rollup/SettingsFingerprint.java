package tepidarium.rollup;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.zip.CRC32C;
import java.util.zip.Checksum;
import tepidarium.container.Container;
import tepidarium.container.Placement;
import tepidarium.container.Register;

/**
 * Computes a fingerprint of the settings, placements, calibrations and excluded readings on which a
 * container's rollups depend. A change of any of them changes the fingerprint; rollups stored under
 * an old fingerprint are recomputed.
 */
final class SettingsFingerprint {
  private SettingsFingerprint() {}

  static long of(Container container, Register register, Duration maxGap) {
    StringBuilder settings = new StringBuilder();
    settings
        .append(container.settings().baseC())
        .append(' ')
        .append(container.settings().ceilingC())
        .append(' ')
        .append(container.band())
        .append(' ')
        .append(maxGap);
    for (Placement placement : register.placementsIn(container.id())) {
      settings
          .append('\n')
          .append(placement)
          .append(register.correction(placement.sensor()).key())
          .append(register.exclusions(placement.sensor()).key());
    }
    byte[] bytes = settings.toString().getBytes(StandardCharsets.UTF_8);
    // Two CRC-32 values make a 64-bit fingerprint, so that a collision is very unlikely.
    return (crc(bytes, 0) << 32) | crc(bytes, 1);
  }

  private static long crc(byte[] bytes, int salt) {
    Checksum checksum = new CRC32C();
    checksum.update(salt);
    checksum.update(bytes);
    return checksum.getValue();
  }
}
