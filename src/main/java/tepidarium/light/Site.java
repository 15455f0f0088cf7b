package tepidarium.light;

/**
 * The geographic position of the containers, for computing the sun's position.
 *
 * @param latitudeDegrees degrees north, −90 to 90
 * @param longitudeDegrees degrees east, −180 to 180
 * @throws IllegalArgumentException naming the one that is out of range
 */
public record Site(double latitudeDegrees, double longitudeDegrees) {
  public Site {
    within("latitude", latitudeDegrees, 90);
    within("longitude", longitudeDegrees, 180);
  }

  private static void within(String name, double degrees, int most) {
    if (!(Math.abs(degrees) <= most)) {
      throw new IllegalArgumentException(
          name + " must lie from -" + most + " to " + most + " degrees, not " + degrees);
    }
  }
}
