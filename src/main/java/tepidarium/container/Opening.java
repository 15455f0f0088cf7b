package tepidarium.container;

import tepidarium.reading.Span;

/** A stretch in which somebody had the container open for a check. */
public record Opening(ContainerId container, Span span) {}
