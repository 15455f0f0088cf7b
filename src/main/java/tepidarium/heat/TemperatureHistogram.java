package tepidarium.heat;

import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.Samples;
import tepidarium.reading.SegmentVisitor;
import tepidarium.reading.Span;

/**
 * A histogram of time by temperature, in bins of 0.25 °C. It gives the degree-hours above any base
 * without the readings. Each bin holds its time and the integral of temperature over this time. So
 * degree-hours above a bin edge are exact. Between edges they are interpolated by a cubic with the
 * right values and slopes at both (Hermite), limited to the range between chord and tangents. The
 * error is at most 1/16 °C × the time in the bin.
 */
public final class TemperatureHistogram {
  static final double STEP_C = 0.25;
  private static final double MIN_C = -10;
  private static final int STEPS = 280;
  private static final double MAX_C = MIN_C + STEPS * STEP_C;

  /** One more bin at each end for lower and higher temperatures. */
  private static final int BINS = STEPS + 2;

  private static final double ON_AN_EDGE = 1e-9;

  private final int first;
  private final double[] hours;
  private final double[] degreeHours;
  private final long coveredMs;
  private final long gapMs;
  private final long leftOutMs;

  private TemperatureHistogram(
      int first, double[] hours, double[] degreeHours, long coveredMs, long gapMs, long leftOutMs) {
    this.first = first;
    this.hours = hours;
    this.degreeHours = degreeHours;
    this.coveredMs = coveredMs;
    this.gapMs = gapMs;
    this.leftOutMs = leftOutMs;
  }

  /** The histogram of a gap. */
  public static TemperatureHistogram unknown(long lengthMs) {
    return new TemperatureHistogram(0, new double[0], new double[0], 0, lengthMs, 0);
  }

  /**
   * The histogram of a span. Temperature is linear between readings as in {@link DegreeHours}.
   *
   * @param temperature °C
   */
  public static TemperatureHistogram of(Samples temperature, Span span, Duration maxGap) {
    Adder adder = new Adder();
    temperature.walk(span, maxGap.toMillis(), adder);
    adder.leftOutMs = temperature.leftOutMs(span, maxGap.toMillis());
    return adder.sum();
  }

  /** The sum of several histograms. */
  public static TemperatureHistogram sum(List<TemperatureHistogram> parts) {
    Adder adder = new Adder();
    parts.forEach(adder::add);
    return adder.sum();
  }

  public long coveredMs() {
    return coveredMs;
  }

  public long gapMs() {
    return gapMs;
  }

  public double coveredHours() {
    return coveredMs / HeatSum.MS_PER_HOUR;
  }

  public double gapHours() {
    return gapMs / HeatSum.MS_PER_HOUR;
  }

  /** The mean temperature over covered time, °C; NaN if no time is covered. */
  public double meanC() {
    double sum = 0;
    for (double part : degreeHours) {
      sum += part;
    }
    return sum / coveredHours();
  }

  /** Whether the heat by a rule is exact: base and ceiling lie on bin edges. */
  public static boolean isExact(HeatRule rule) {
    return onAnEdge(rule.baseC()) && (rule.ceilingC() == null || onAnEdge(rule.ceilingC()));
  }

  private static boolean onAnEdge(double temperatureC) {
    double steps = (temperatureC - MIN_C) / STEP_C;
    return inRange(temperatureC) && Math.abs(steps - Math.rint(steps)) < ON_AN_EDGE;
  }

  private static boolean inRange(double temperatureC) {
    return temperatureC >= MIN_C && temperatureC <= MAX_C;
  }

  /**
   * The heat by a rule. Time at exactly the base counts as above it. Time below −10 °C or above 60
   * °C counts with its mean temperature.
   */
  public HeatSum heat(HeatRule rule) {
    Double ceiling = rule.ceilingC();
    double capped = ceiling == null ? 0 : above(ceiling);
    return new HeatSum(
        above(rule.baseC()) - capped, hoursAbove(rule.baseC()), coveredMs, gapMs, leftOutMs);
  }

  /**
   * The possible error of the heat by a rule due to the sensor. Exact if base and ceiling, both
   * unchanged and shifted by the error, lie on bin edges.
   *
   * @param errorC possible error of the sensor, ±°C, at least 0
   */
  public SensorError sensorError(HeatRule rule, double errorC) {
    double heat = heat(rule).degreeHours();
    double ifTooHigh = heat(rule.forTemperaturesLoweredBy(errorC)).degreeHours();
    double ifTooLow = heat(rule.forTemperaturesLoweredBy(-errorC)).degreeHours();
    return new SensorError(Math.max(0, heat - ifTooHigh), Math.max(0, ifTooLow - heat));
  }

  /** The covered time above a temperature, h; time at exactly that temperature counts. */
  public double hoursAbove(double temperatureC) {
    double inside = Math.max(MIN_C, Math.min(MAX_C, temperatureC));
    double steps = (inside - MIN_C) / STEP_C;
    int edge = (int) Math.floor(steps + ON_AN_EDGE);
    double part = Math.max(0, steps - edge);
    return (1 - part) * hoursAboveEdge(edge) + part * hoursAboveEdge(edge + 1);
  }

  private double above(double temperatureC) {
    if (!inRange(temperatureC)) {
      return aboveOutside(temperatureC);
    }
    double steps = (temperatureC - MIN_C) / STEP_C;
    int edge = (int) Math.floor(steps + ON_AN_EDGE);
    double part = Math.max(0, steps - edge);
    if (part < ON_AN_EDGE) {
      return aboveEdge(edge);
    }
    double start = aboveEdge(edge);
    double end = aboveEdge(edge + 1);
    double startSlope = -STEP_C * hoursAboveEdge(edge);
    double endSlope = -STEP_C * hoursAboveEdge(edge + 1);
    double rest = 1 - part;
    double cubic =
        rest * rest * ((1 + 2 * part) * start + part * startSlope)
            + part * part * ((1 + 2 * rest) * end - rest * endSlope);
    // Heat as a function of the base is convex: it lies below the chord and above both tangents.
    double chord = rest * start + part * end;
    double tangents = Math.max(start + part * startSlope, end - rest * endSlope);
    return Math.max(tangents, Math.min(chord, cubic));
  }

  private double aboveOutside(double temperatureC) {
    double sum = 0;
    for (int i = 0; i < hours.length; i++) {
      sum += Math.max(0, degreeHours[i] - temperatureC * hours[i]);
    }
    return sum;
  }

  /** Degree-hours above the lower edge of bin {@code edge} + 1. */
  private double aboveEdge(int edge) {
    double edgeC = MIN_C + edge * STEP_C;
    double sum = 0;
    for (int i = Math.max(0, edge + 1 - first); i < hours.length; i++) {
      sum += degreeHours[i] - edgeC * hours[i];
    }
    return Math.max(0, sum);
  }

  private double hoursAboveEdge(int edge) {
    double sum = 0;
    for (int i = Math.max(0, edge + 1 - first); i < hours.length; i++) {
      sum += hours[i];
    }
    return sum;
  }

  /**
   * Serializes the bins. Covered time, gaps and time left out are stored separately. See {@link
   * #fromBytes}.
   */
  public byte[] toBytes() {
    ByteBuffer bytes = ByteBuffer.allocate(Short.BYTES + 2 * Double.BYTES * hours.length);
    bytes.putShort((short) first);
    for (int i = 0; i < hours.length; i++) {
      bytes.putDouble(hours[i]).putDouble(degreeHours[i]);
    }
    return bytes.array();
  }

  /** Deserializes a histogram. Without bytes the whole time is a gap. */
  public static TemperatureHistogram fromBytes(
      byte @Nullable [] kept, long coveredMs, long gapMs, long leftOutMs) {
    if (kept == null) {
      return unknown(coveredMs + gapMs);
    }
    ByteBuffer bytes = ByteBuffer.wrap(kept);
    int first = bytes.getShort();
    double[] hours = new double[bytes.remaining() / (2 * Double.BYTES)];
    double[] degreeHours = new double[hours.length];
    for (int i = 0; i < hours.length; i++) {
      hours[i] = bytes.getDouble();
      degreeHours[i] = bytes.getDouble();
    }
    return new TemperatureHistogram(first, hours, degreeHours, coveredMs, gapMs, leftOutMs);
  }

  private static final class Adder implements SegmentVisitor {
    private final double[] hours = new double[BINS];
    private final double[] degreeHours = new double[BINS];
    private long coveredMs;
    private long gapMs;
    private long leftOutMs;

    @Override
    public void line(long startMs, double startC, long endMs, double endC) {
      coveredMs += endMs - startMs;
      double length = (endMs - startMs) / HeatSum.MS_PER_HOUR;
      double low = Math.min(startC, endC);
      double high = Math.max(startC, endC);
      double perDegree = length / (high - low);
      int last = bin(high);
      for (int bin = bin(low); bin < last; bin++) {
        double edge = MIN_C + bin * STEP_C;
        double part = Math.min(length, (edge - low) * perDegree);
        put(bin, part, (low + edge) / 2);
        length -= part;
        low = edge;
      }
      put(last, length, (low + high) / 2);
    }

    /** The bin of a temperature; a temperature on an edge belongs to the bin above it. */
    private static int bin(double temperatureC) {
      double steps = Math.floor((temperatureC - MIN_C) / STEP_C);
      return (int) Math.max(0, Math.min(BINS - 1, steps + 1));
    }

    private void put(int bin, double length, double meanC) {
      hours[bin] += length;
      degreeHours[bin] += length * meanC;
    }

    @Override
    public void gap(long startMs, long endMs) {
      gapMs += endMs - startMs;
    }

    void add(TemperatureHistogram part) {
      for (int i = 0; i < part.hours.length; i++) {
        hours[part.first + i] += part.hours[i];
        degreeHours[part.first + i] += part.degreeHours[i];
      }
      coveredMs += part.coveredMs;
      gapMs += part.gapMs;
      leftOutMs += part.leftOutMs;
    }

    TemperatureHistogram sum() {
      int from = 0;
      int to = BINS;
      while (from < to && hours[from] == 0) {
        from++;
      }
      while (to > from && hours[to - 1] == 0) {
        to--;
      }
      return new TemperatureHistogram(
          from,
          Arrays.copyOfRange(hours, from, to),
          Arrays.copyOfRange(degreeHours, from, to),
          coveredMs,
          gapMs,
          leftOutMs);
    }
  }
}
