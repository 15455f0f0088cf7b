package tepidarium.reading;

import java.util.Random;

/** The same course reported more often: more samples on the same straight lines. */
public final class Refined {
  private Refined() {}

  /** Adds up to nine samples between neighbours that have no gap between them. */
  public static Samples of(Samples samples, long maxGapMs, Random random) {
    Samples.Builder builder = new Samples.Builder(samples.size() * 10);
    for (int i = 0; i < samples.size(); i++) {
      builder.add(samples.atMs(i), samples.value(i));
      if (i + 1 < samples.size() && samples.atMs(i + 1) - samples.atMs(i) <= maxGapMs) {
        between(samples, i, random, builder);
      }
    }
    return builder.build();
  }

  private static void between(Samples samples, int i, Random random, Samples.Builder builder) {
    long length = samples.atMs(i + 1) - samples.atMs(i);
    long at = samples.atMs(i);
    for (int k = random.nextInt(10); k > 0 && at + 1 < samples.atMs(i + 1); k--) {
      at += 1 + random.nextInt((int) Math.min(Integer.MAX_VALUE, samples.atMs(i + 1) - at - 1));
      double share = (double) (at - samples.atMs(i)) / length;
      builder.add(at, samples.value(i) + share * (samples.value(i + 1) - samples.value(i)));
    }
  }
}
