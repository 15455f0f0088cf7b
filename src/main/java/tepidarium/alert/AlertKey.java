package tepidarium.alert;

import tepidarium.container.ContainerId;

/** What a condition is about: one container and one kind of alert. */
public record AlertKey(ContainerId container, AlertKind kind) {}
