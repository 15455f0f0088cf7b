package tepidarium.alert;

import org.jspecify.annotations.Nullable;

/**
 * A requested change of the rule of one alert kind in one container.
 *
 * @param override the new override; null for no change
 * @param inService whether the kind is in service; null for no change
 */
public record RuleChange(@Nullable RuleOverride override, @Nullable Boolean inService) {}
