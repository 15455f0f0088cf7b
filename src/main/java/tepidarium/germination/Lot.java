package tepidarium.germination;

/** A seed lot: seeds of one species that were gathered together. */
public record Lot(long id, LotDetails details) {}
