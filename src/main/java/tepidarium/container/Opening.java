package tepidarium.container;

import tepidarium.reading.Span;

/** A time span in which a person had the container open for a check. */
public record Opening(ContainerId container, Span span) {}
