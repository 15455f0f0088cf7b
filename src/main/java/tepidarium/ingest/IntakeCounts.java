package tepidarium.ingest;

/**
 * What came in since the start, in readings and refusals. Always received = stored + repeated +
 * rejected + waiting.
 *
 * @param received readings decoded, things refused, and readings found waiting on disk at the start
 * @param stored readings that added something to the record
 * @param repeated readings that were there already
 * @param rejected things refused; the reject log keeps at most 20 lines of one message
 * @param waiting not yet durable, or durable on this disk and not yet in the readings store
 */
public record IntakeCounts(
    long received, long stored, long repeated, long rejected, long waiting) {}
