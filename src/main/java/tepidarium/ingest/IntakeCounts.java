package tepidarium.ingest;

/**
 * What came in since the start, in readings and refusals. Always received = stored + repeated +
 * rejected + waiting.
 *
 * @param received readings decoded and lines refused
 * @param stored readings that added something to the record
 * @param repeated readings that were there already
 * @param rejected lines in the reject log
 * @param waiting handed over and not yet durable
 */
public record IntakeCounts(
    long received, long stored, long repeated, long rejected, long waiting) {}
