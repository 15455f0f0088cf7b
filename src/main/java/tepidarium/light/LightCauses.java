package tepidarium.light;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Opening;
import tepidarium.reading.Span;

/**
 * Determines the probable source of light events. Light during a recorded opening is due to the
 * opening. While the sun is more than 6° below the horizon, light cannot be daylight. At other
 * times it is a lamp if it starts at full brightness and stays constant. It is daylight if it rises
 * and falls gradually, or if it comes back on other days at the same position of the sun. Other
 * light is of unknown source, and all light is if the site is not known. The bounds are common
 * practice, no source.
 */
public final class LightCauses {
  private static final long STEP_MS = Duration.ofMinutes(5).toMillis();
  private static final int MAX_STEPS = 24;
  private static final Duration DARK_TOLERANCE = Duration.ofMinutes(5);
  private static final int OTHER_DAYS = 2;
  private static final double SAME_ELEVATION_DEGREES = 6;
  private static final double SAME_AZIMUTH_DEGREES = 20;

  /**
   * One event of a container.
   *
   * @param opening whether a recorded opening overlaps it
   */
  public record Seen(LightEvent event, LightShape shape, boolean opening) {
    /**
     * An event with the openings of its container.
     *
     * @param openings recorded openings of the container, also those that do not overlap the event
     */
    public static Seen of(LightEvent event, LightShape shape, List<Opening> openings) {
      Span span = event.span();
      return new Seen(
          event, shape, openings.stream().anyMatch(opening -> opening.span().overlaps(span)));
    }
  }

  /**
   * The sun in the middle of an event, its lowest and highest position, and the time in darkness.
   */
  private record Sky(Sun middle, Sun lowest, Sun highest, Duration dark, long solarDay) {}

  private LightCauses() {}

  /**
   * The cause of each event, in their order.
   *
   * @param seen all events of a container over a span; more days give more certainty
   * @param site null when it is not known
   */
  public static List<LightCause> of(List<Seen> seen, @Nullable Site site) {
    if (site == null) {
      return seen.stream().map(one -> one.opening() ? opening() : unknownSite()).toList();
    }
    List<Sky> skies = seen.stream().map(one -> sky(one.event(), site)).toList();
    List<LightCause> causes = new ArrayList<>();
    for (int i = 0; i < seen.size(); i++) {
      causes.add(cause(seen, skies, i));
    }
    return causes;
  }

  private static LightCause cause(List<Seen> seen, List<Sky> skies, int index) {
    Seen one = seen.get(index);
    Sky sky = skies.get(index);
    if (one.opening()) {
      return opening();
    }
    if (!sky.highest().givesLight() || sky.dark().compareTo(DARK_TOLERANCE) > 0) {
      return lampAtNight(sky);
    }
    if (one.shape().likeALamp()) {
      return lampByDay();
    }
    boolean gradual = one.shape().likeTheSky();
    return gradual || comesBackWithTheSun(seen, skies, index) ? daylight(sky) : other();
  }

  private static boolean comesBackWithTheSun(List<Seen> seen, List<Sky> skies, int index) {
    Sky sky = skies.get(index);
    Set<Long> days = new HashSet<>();
    for (int i = 0; i < seen.size(); i++) {
      boolean counts = !seen.get(i).opening() && !seen.get(i).shape().likeALamp();
      if (counts && samePlace(sky.middle(), skies.get(i).middle())) {
        days.add(skies.get(i).solarDay());
      }
    }
    days.remove(sky.solarDay());
    return days.size() >= OTHER_DAYS;
  }

  private static boolean samePlace(Sun a, Sun b) {
    double turn = Math.abs(a.azimuthDegrees() - b.azimuthDegrees());
    return Math.abs(a.elevationDegrees() - b.elevationDegrees()) <= SAME_ELEVATION_DEGREES
        && Math.min(turn, 360 - turn) <= SAME_AZIMUTH_DEGREES;
  }

  private static Sky sky(LightEvent event, Site site) {
    long start = event.start().toEpochMilli();
    long length = event.lastSeen().toEpochMilli() - start;
    int steps = (int) Math.max(1, Math.min(MAX_STEPS, length / STEP_MS));
    List<Sun> suns = new ArrayList<>();
    for (int i = 0; i <= steps; i++) {
      suns.add(Sun.over(site, Instant.ofEpochMilli(start + length * i / steps)));
    }
    long dark = suns.stream().filter(sun -> !sun.givesLight()).count();
    Comparator<Sun> byElevation = Comparator.comparing(Sun::elevationDegrees);
    Instant middle = Instant.ofEpochMilli(start + length / 2);
    long aheadMs = Math.round(site.longitudeDegrees() / 15 * 3_600_000);
    long solarDay = Math.floorDiv(middle.toEpochMilli() + aheadMs, 86_400_000L);
    return new Sky(
        Sun.over(site, middle),
        suns.stream().min(byElevation).get(),
        suns.stream().max(byElevation).get(),
        Duration.ofMillis(length * dark / suns.size()),
        solarDay);
  }

  private static LightCause opening() {
    return new LightCause(LightCause.Sign.OPENING, "An opening for a check: nothing to do.");
  }

  private static LightCause daylight(Sky sky) {
    Sun sun = sky.highest();
    String where =
        sun.elevationDegrees() < 0
            ? "below the horizon in the " + sun.quarter()
            : String.format(
                Locale.ROOT, "in the %s, %.0f° high", sun.quarter(), sun.elevationDegrees());
    return new LightCause(
        LightCause.Sign.DAYLIGHT,
        "Daylight gets in (the sun stood "
            + where
            + "). Turn the seam or the lid's edge that faces the window away from it, or cover it"
            + " with something opaque; keep the closet door shut.",
        sun.elevationDegrees(),
        sun.quarter());
  }

  private static LightCause lampAtNight(Sky sky) {
    return new LightCause(
        LightCause.Sign.LAMP_AT_NIGHT,
        String.format(
            Locale.ROOT,
            "Not daylight alone: the sun was %.0f° below the horizon, so a lamp was on. Check that"
                + " the closet door and the lid are closed tightly towards the lamp. If you opened"
                + " the container then, record the opening.",
            -sky.lowest().elevationDegrees()),
        sky.lowest().elevationDegrees(),
        null);
  }

  private static LightCause lampByDay() {
    return new LightCause(
        LightCause.Sign.LAMP_BY_SHAPE,
        "Probably a lamp: the light started at full brightness and stayed constant. Find out which"
            + " lamp was on. Check that the closet door and the lid are closed tightly. If you opened"
            + " the container then, record the opening.");
  }

  private static LightCause other() {
    return new LightCause(
        LightCause.Sign.UNDECIDED,
        "Daylight or a lamp; the readings do not show which. Check that the lid and the closet door"
            + " are closed tightly and that the seam does not face the window. If you opened the"
            + " container then, record the opening.");
  }

  private static LightCause unknownSite() {
    return new LightCause(
        LightCause.Sign.UNKNOWN_SITE,
        "Check that the lid and the closet door are closed tightly and that the seam does not face"
            + " the window. If you opened the container then, record the opening. With a site in the"
            + " settings, daylight and lamps can be distinguished.");
  }
}
