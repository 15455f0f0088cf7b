package tepidarium.light;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The probable source of a light event, with advice.
 *
 * @param sign by what the source was recognised
 * @param advice advice for the grower
 * @param sunElevationDegrees highest position of the sun for daylight, lowest for a lamp at night,
 *     degrees above the horizon; null for other signs
 * @param sunQuarter quarter of the sky of the sun for daylight; null for other signs
 */
public record LightCause(
    Sign sign, String advice, @Nullable Double sunElevationDegrees, @Nullable String sunQuarter) {

  /** The evidence for a source. */
  public enum Sign {
    OPENING(LightKind.OPENING),
    DAYLIGHT(LightKind.DAYLIGHT),
    /** The sun was too low to give light. */
    LAMP_AT_NIGHT(LightKind.LAMP),
    /** Full brightness at once, then constant. */
    LAMP_BY_SHAPE(LightKind.LAMP),
    /** The readings do not show the source. */
    UNDECIDED(LightKind.OTHER),
    /** Without a site, the position of the sun is not known. */
    UNKNOWN_SITE(LightKind.OTHER);

    private final LightKind kind;

    Sign(LightKind kind) {
      this.kind = kind;
    }

    /** The name in the API, such as {@code lamp-at-night}. */
    public String key() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  LightCause(Sign sign, String advice) {
    this(sign, advice, null, null);
  }

  public LightKind kind() {
    return sign.kind;
  }
}
