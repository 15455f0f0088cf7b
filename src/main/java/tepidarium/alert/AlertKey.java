package tepidarium.alert;

import tepidarium.container.ContainerId;

/** Identifies a condition: one container and one alert kind. */
public record AlertKey(ContainerId container, AlertKind kind) {}
