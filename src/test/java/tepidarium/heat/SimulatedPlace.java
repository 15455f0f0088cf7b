package tepidarium.heat;

import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.SampleRecords;
import tepidarium.reading.Samples;
import tepidarium.reading.Span;

/**
 * A place whose truth is known: its thermal equation is followed in steps of ten seconds, draughts
 * and all, and two sensors report every five minutes to a tenth of a degree.
 */
final class SimulatedPlace {
  static final int STEP_SECONDS = 10;
  static final double LOW_C = 29.5;
  private static final int HOURS = 48;

  /**
   * @param roomSwingC half of what the room varies in a day, °C
   * @param thermostatC between which temperatures it is switched, if it is: low and high
   */
  @SuppressWarnings("ArrayRecordComponent")
  record Truth(
      double tauHours, double riseC, double roomSwingC, double draughtC, double[] thermostatC) {
    static Truth plain(double tauHours, double riseC) {
      return new Truth(tauHours, riseC, 2.5, 0.15, new double[0]);
    }
  }

  final Samples inside;
  final Samples room;
  final Span span;
  final double duty;

  SimulatedPlace(Truth truth, long seed) {
    this(truth, seed, 300);
  }

  SimulatedPlace(Truth truth, long seed, int periodSeconds) {
    this(truth, seed, periodSeconds, HOURS);
  }

  SimulatedPlace(Truth truth, long seed, int periodSeconds, int hours) {
    span = SampleRecords.span(0, hours * 60.0);
    SplittableRandom random = new SplittableRandom(seed);
    int steps = hours * 3600 / STEP_SECONDS;
    double step = STEP_SECONDS / 3600.0;
    double kept = Math.exp(-step / truth.tauHours());
    double weatherKept = Math.exp(-step / 5);
    double phase = random.nextDouble() * 2 * Math.PI;
    double weather = 0.4 * random.nextGaussian();
    double draught = truth.draughtC() * random.nextGaussian();
    double body = 18 + truth.riseC() * (truth.thermostatC().length == 0 ? 1 : 0.6);
    boolean on = true;
    int ons = 0;
    Samples.Builder insideB = new Samples.Builder(steps);
    Samples.Builder roomB = new Samples.Builder(steps);
    for (int i = 0; i < steps; i++) {
      double air = 18 + truth.roomSwingC() * Math.cos(2 * Math.PI * i * step / 24 + phase);
      air += truth.roomSwingC() > 0 ? weather : 0;
      if (truth.thermostatC().length > 0) {
        on = body < truth.thermostatC()[0] || (on && body < truth.thermostatC()[1]);
      }
      ons += on ? 1 : 0;
      if (i % (periodSeconds / STEP_SECONDS) == 0) {
        double minute = i * step * 60;
        insideB.add(SampleRecords.minute(minute), reading(body + draught, random));
        roomB.add(SampleRecords.minute(minute), reading(air, random));
      }
      body = kept * body + (1 - kept) * (air + (on ? truth.riseC() : 0));
      draught =
          kept * draught + truth.draughtC() * Math.sqrt(1 - kept * kept) * random.nextGaussian();
      weather =
          weatherKept * weather
              + 0.4 * Math.sqrt(1 - weatherKept * weatherKept) * random.nextGaussian();
    }
    inside = insideB.build();
    room = roomB.build();
    duty = (double) ons / steps;
  }

  private static double reading(double trueC, SplittableRandom random) {
    return Math.rint((trueC + 0.05 * random.nextGaussian()) * 10) / 10;
  }

  PlaceTrial trial(@Nullable Double watts) {
    return PlaceTrial.of(
        inside, room, span, SampleRecords.HALF_HOUR, new PlaceTrial.Question(LOW_C, watts, 0.2));
  }
}
