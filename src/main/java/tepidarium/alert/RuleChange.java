package tepidarium.alert;

import org.jspecify.annotations.Nullable;

/**
 * What somebody changes about one kind of alert in one container.
 *
 * @param override in place of the old one; null leaves that as it is
 * @param inService null leaves it as it is
 */
public record RuleChange(@Nullable RuleOverride override, @Nullable Boolean inService) {}
