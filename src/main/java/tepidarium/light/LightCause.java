package tepidarium.light;

/**
 * The probable source of a light event, with advice.
 *
 * @param advice advice for the grower
 */
public record LightCause(LightKind kind, String advice) {}
