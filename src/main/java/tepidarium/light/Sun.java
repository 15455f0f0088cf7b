package tepidarium.light;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import net.e175.klaus.solarpositioning.DeltaT;
import net.e175.klaus.solarpositioning.SPA;
import net.e175.klaus.solarpositioning.SolarPosition;

/**
 * Position of the centre of the sun's disc, without refraction. Computed by the algorithm of Reda
 * and Andreas (NREL/TP-560-34302, 2004) with an estimated delta T. Defined at every place and
 * instant, including polar day and night.
 *
 * @param elevationDegrees above the horizon, negative below it, −90 to 90
 * @param azimuthDegrees clockwise from north, 0 to 360
 */
public record Sun(double elevationDegrees, double azimuthDegrees) {
  /**
   * End of civil twilight, the lowest elevation with daylight in a room (the common definition of
   * civil twilight, value from memory).
   */
  public static final double CIVIL_TWILIGHT_DEGREES = -6;

  /** The position at a site and an instant. */
  public static Sun over(Site site, Instant at) {
    ZonedDateTime utc = at.atZone(ZoneOffset.UTC);
    SolarPosition position =
        SPA.calculateSolarPosition(
            utc,
            site.latitudeDegrees(),
            site.longitudeDegrees(),
            0,
            DeltaT.estimate(utc.toLocalDate()));
    return new Sun(90 - position.zenithAngle(), position.azimuth());
  }

  /** Whether there can be daylight. */
  public boolean givesLight() {
    return elevationDegrees > CIVIL_TWILIGHT_DEGREES;
  }

  /** The quarter of the sky in words, for example south-east. */
  public String quarter() {
    String[] names = {
      "north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"
    };
    return names[(int) Math.round(azimuthDegrees / 45) % names.length];
  }
}
