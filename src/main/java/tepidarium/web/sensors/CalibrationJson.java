package tepidarium.web.sensors;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tepidarium.calibration.CalibrationMethod;
import tepidarium.calibration.CalibrationPoint;
import tepidarium.calibration.FixedPoint;
import tepidarium.calibration.QuantityCorrection;
import tepidarium.calibration.SaltSlurry;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Quantity;
import tepidarium.reading.SensorId;
import tepidarium.web.Params;

/** The JSON form of a sensor's calibration points and of the corrections from them. */
record CalibrationJson(String sensor, List<PointJson> points, List<CorrectionJson> corrections) {

  record PointJson(
      long id,
      String quantity,
      Instant at,
      double reading,
      double trueValue,
      double uncertainty,
      String method,
      @Nullable String note) {
    static PointJson of(CalibrationPoint.Stored stored) {
      CalibrationPoint point = stored.point();
      return new PointJson(
          stored.id(),
          point.quantity().key(),
          point.at(),
          point.reading(),
          point.trueValue(),
          point.uncertainty(),
          point.method().key(),
          point.note());
    }
  }

  record SessionJson(Instant at, int points, double gain, double offset) {}

  record NowJson(
      double gain,
      double offset,
      double reading,
      double corrected,
      double uncertainty,
      double expandedUncertainty) {
    static NowJson of(QuantityCorrection correction, Instant now, double reading) {
      QuantityCorrection.Line line = correction.at(now);
      return new NowJson(
          line.gain(),
          line.offset(),
          reading,
          correction.corrected(now.toEpochMilli(), reading),
          correction.uncertainty(now, reading),
          correction.expandedUncertainty(now, reading));
    }
  }

  record CorrectionJson(
      String quantity,
      String unit,
      List<SessionJson> sessions,
      NowJson now,
      @Nullable Double meanBefore,
      @Nullable Double meanAfter) {
    static CorrectionJson of(
        Quantity quantity,
        QuantityCorrection correction,
        NowJson now,
        @Nullable Double meanBefore,
        @Nullable Double meanAfter) {
      List<SessionJson> sessions =
          correction.sessions().stream()
              .map(
                  session -> {
                    QuantityCorrection.Line line = correction.at(session.at());
                    return new SessionJson(
                        session.at(), session.points().size(), line.gain(), line.offset());
                  })
              .toList();
      return new CorrectionJson(
          quantity.key(), quantity.unit(), sessions, now, meanBefore, meanAfter);
    }
  }

  static CalibrationJson of(
      SensorId sensor, List<CalibrationPoint.Stored> points, List<CorrectionJson> corrections) {
    return new CalibrationJson(
        sensor.name(), points.stream().map(PointJson::of).toList(), corrections);
  }

  /** A new point. The ice point, the dark and a salt have a true value of their own. */
  record PointRequest(
      @Nullable String quantity,
      @Nullable String at,
      @Nullable Double reading,
      @Nullable Double trueValue,
      @Nullable Double uncertainty,
      @Nullable String method,
      @Nullable String note,
      @Nullable String salt,
      @Nullable Double saltTemperature) {

    /** Melting ice, well stirred, holds 0 °C within 0.1 °C; common practice, no source. */
    private static final double ICE_LIMIT_C = 0.1;

    /**
     * Standard uncertainty of the temperature difference between sensor and slurry, °C; common
     * practice, no source.
     */
    private static final double SALT_DIFFERENCE_C = 0.2;

    CalibrationPoint point(SensorId sensor, Instant now) {
      Quantity known = Params.quantity(quantity);
      String how = given("method", method);
      CalibrationMethod knownMethod =
          CalibrationMethod.ofKey(how)
              .orElseThrow(() -> new InvalidInput("method", "\"" + how + "\" is not a method"));
      double read = given("reading", reading);
      FixedPoint truth = truth(knownMethod, read);
      return new CalibrationPoint(
          sensor,
          known,
          at == null ? now : Params.instant("at", at),
          read,
          truth.reference(),
          truth.referenceUncertainty(),
          knownMethod,
          note);
    }

    private FixedPoint truth(CalibrationMethod known, double read) {
      if (salt != null) {
        FixedPoint point =
            salt(known, salt)
                .fixedPoint(read, 0, given("saltTemperature", saltTemperature), SALT_DIFFERENCE_C);
        return truth(read, point.reference(), point.referenceUncertainty());
      }
      return switch (known) {
        case ICE_POINT -> truth(read, 0.0, FixedPoint.ofLimits(ICE_LIMIT_C));
        case DARK -> truth(read, 0.0, 0.0);
        default -> truth(read, null, null);
      };
    }

    private FixedPoint truth(
        double read, @Nullable Double usual, @Nullable Double usualUncertainty) {
      double value = given("trueValue", trueValue == null ? usual : trueValue);
      double off = given("uncertainty", uncertainty == null ? usualUncertainty : uncertainty);
      return new FixedPoint(read, 0, value, off);
    }

    private static SaltSlurry salt(CalibrationMethod known, String name) {
      if (known != CalibrationMethod.SATURATED_SALT) {
        throw new InvalidInput("salt", "is only for the method saturatedSalt. Leave it out");
      }
      return Optional.of(name)
          .flatMap(CalibrationJson::saltOf)
          .orElseThrow(
              () ->
                  new InvalidInput(
                      "salt",
                      "must be magnesiumChloride, sodiumChloride, potassiumChloride or"
                          + " potassiumSulphate"));
    }

    private static <T> T given(String field, @Nullable T value) {
      if (value == null) {
        throw InvalidInput.missing(field);
      }
      return value;
    }
  }

  private static Optional<SaltSlurry> saltOf(String name) {
    for (SaltSlurry salt : SaltSlurry.values()) {
      if (salt.name()
          .toLowerCase(Locale.ROOT)
          .replace("_", "")
          .equals(name.toLowerCase(Locale.ROOT))) {
        return Optional.of(salt);
      }
    }
    return Optional.empty();
  }
}
