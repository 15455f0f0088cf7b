package tepidarium.web.containers;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.container.Container;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;
import tepidarium.reading.Span;
import tepidarium.web.HeatJson;
import tepidarium.web.alerts.AlertJson;

/** The JSON form of a container with its present state. */
public record ContainerJson(
    String id,
    String name,
    String kind,
    @Nullable String heatSource,
    @Nullable String room,
    double base,
    @Nullable Double ceiling,
    BandLimits band,
    Instant createdAt,
    List<String> sensors,
    Map<String, @Nullable LatestJson> latest,
    Map<String, String> limits,
    List<AlertJson> alerts,
    @Nullable HeatJson heat,
    @Nullable SpanJson opening) {

  public record LatestJson(double value, Instant at, String sensor) {}

  public record SpanJson(Instant from, Instant until) {
    static SpanJson of(Span span) {
      return new SpanJson(span.from(), span.to());
    }
  }

  /** The limits of a container. A request may leave out any of them; a response has all. */
  public record BandLimits(
      @Nullable LowHigh temperature, @Nullable LowHigh light, @Nullable LowHigh humidity) {
    static BandLimits of(Band band) {
      return new BandLimits(
          new LowHigh(band.temperatureLowC(), band.temperatureHighC()),
          new LowHigh(null, band.lightHighLux()),
          new LowHigh(band.humidityLowPercent(), null));
    }

    Band over(Band band) {
      if (light != null && light.low() != null) {
        throw new InvalidInput("band.light", "has only a high limit");
      }
      if (humidity != null && humidity.high() != null) {
        throw new InvalidInput("band.humidity", "has only a low limit");
      }
      return new Band(
          or(temperature == null ? null : temperature.low(), band.temperatureLowC()),
          or(temperature == null ? null : temperature.high(), band.temperatureHighC()),
          or(light == null ? null : light.high(), band.lightHighLux()),
          or(humidity == null ? null : humidity.low(), band.humidityLowPercent()));
    }
  }

  @com.fasterxml.jackson.annotation.JsonInclude(
      com.fasterxml.jackson.annotation.JsonInclude.Include.NON_NULL)
  public record LowHigh(@Nullable Double low, @Nullable Double high) {}

  /**
   * A request to create or change a container; name and kind are required.
   *
   * @param room null keeps the present room, because older clients do not send it; blank for none
   */
  record Request(
      @Nullable String name,
      @Nullable String kind,
      @Nullable String heatSource,
      @Nullable String room,
      @Nullable Double base,
      @Nullable Double ceiling,
      @Nullable BandLimits band) {

    /**
     * @param presentRoom null for a new container, and for one without a room
     */
    ContainerSettings settings(@Nullable String presentRoom) {
      if (name == null) {
        throw new InvalidInput(
            "name", "is missing: give the container a name", InputRule.MISSING.with());
      }
      return new ContainerSettings(
          name,
          kind(kind),
          heatSource,
          room == null ? presentRoom : room,
          or(base, ContainerSettings.DEFAULT_BASE_C),
          ceiling,
          band == null ? Band.DEFAULT : band.over(Band.DEFAULT));
    }

    private static ContainerKind kind(@Nullable String kind) {
      try {
        return ContainerKind.valueOf(String.valueOf(kind).toUpperCase(Locale.ROOT));
      } catch (IllegalArgumentException e) {
        throw new InvalidInput("kind", "must be bag, box, jar or tray");
      }
    }
  }

  private static double or(@Nullable Double value, double otherwise) {
    return value == null ? otherwise : value;
  }

  public static String kindOf(Container container) {
    return container.settings().kind().name().toLowerCase(Locale.ROOT);
  }
}
