package tepidarium.germination;

import tepidarium.container.ContainerId;

/** A number of seeds to sow in one container. */
public record Portion(ContainerId container, int seeds) {}
