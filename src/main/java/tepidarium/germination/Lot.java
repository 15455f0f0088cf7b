package tepidarium.germination;

/** Seeds of one species gathered together. */
public record Lot(long id, LotDetails details) {}
