package tepidarium.light;

/**
 * Where the light of an event came from, and what to do about it.
 *
 * @param advice plain words for the grower
 */
public record LightCause(LightKind kind, String advice) {}
