package tepidarium.moving;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Consumer;
import tepidarium.reading.Arrival;
import tepidarium.reading.Quantity;
import tepidarium.reading.Reading;
import tepidarium.reading.Samples;
import tepidarium.reading.SensorId;
import tepidarium.series.ScaledValue;

/**
 * The readings of one sensor in a span, as a store gives them.
 *
 * @param samples by quantity
 * @param uncertain whether they are of uncertain time
 */
record SensorReadings(SensorId sensor, Map<Quantity, Samples> samples, boolean uncertain) {
  private static final long HOUR_MS = Duration.ofHours(1).toMillis();
  private static final Arrival UNCERTAIN = new Arrival(0, false, true);

  /**
   * The checksum of one hour.
   *
   * @param readings number of readings
   * @param hash SHA-256 of the instants and values, in steps of {@link ScaledValue}
   */
  record HourSum(long readings, String hash) {}

  private interface Visitor {
    void reading(long atMs, Map<Quantity, Double> values);
  }

  private void each(Visitor visitor) {
    int[] next = new int[Quantity.values().length];
    for (long atMs : Samples.instants(samples.values())) {
      Map<Quantity, Double> values = new EnumMap<>(Quantity.class);
      samples.forEach(
          (quantity, series) -> {
            int i = next[quantity.ordinal()];
            if (i < series.size() && series.atMs(i) == atMs) {
              values.put(quantity, series.value(i));
              next[quantity.ordinal()]++;
            }
          });
      visitor.reading(atMs, values);
    }
  }

  /** Gives the readings of some hours, in order of time. */
  void each(Set<Long> hours, Consumer<Reading> consumer) {
    each(
        (atMs, values) -> {
          if (hours.contains(hour(atMs))) {
            Instant at = Instant.ofEpochMilli(atMs);
            consumer.accept(new Reading(sensor, at, values, uncertain ? UNCERTAIN : null));
          }
        });
  }

  /** The checksum of each hour with readings, by its number since the epoch. */
  Map<Long, HourSum> sums() {
    Map<Long, MessageDigest> digests = new TreeMap<>();
    Map<Long, Long> counts = new HashMap<>();
    ByteBuffer bytes = ByteBuffer.allocate(Long.BYTES * (1 + 2 * Quantity.values().length));
    each(
        (atMs, values) -> {
          bytes.clear().putLong(atMs);
          values.forEach(
              (quantity, value) ->
                  bytes.putLong(quantity.ordinal()).putLong(ScaledValue.steps(value)));
          digests
              .computeIfAbsent(hour(atMs), hour -> sha256())
              .update(bytes.array(), 0, bytes.position());
          counts.merge(hour(atMs), 1L, Long::sum);
        });
    Map<Long, HourSum> sums = new TreeMap<>();
    digests.forEach(
        (hour, digest) ->
            sums.put(
                hour,
                new HourSum(
                    counts.getOrDefault(hour, 0L), HexFormat.of().formatHex(digest.digest()))));
    return sums;
  }

  /** The hours whose checksums differ. */
  static Set<Long> different(Map<Long, HourSum> one, Map<Long, HourSum> other) {
    Set<Long> hours = new TreeSet<>(one.keySet());
    hours.addAll(other.keySet());
    hours.removeIf(hour -> one.containsKey(hour) && one.get(hour).equals(other.get(hour)));
    return hours;
  }

  /** When an hour begins. */
  static Instant start(long hour) {
    return Instant.ofEpochMilli(hour * HOUR_MS);
  }

  private static long hour(long atMs) {
    return Math.floorDiv(atMs, HOUR_MS);
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
