package tepidarium.ingest.mqtt;

import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tepidarium.ingest.Reject;

/**
 * Counts connections that were refused because the client has no account. Logs at most one a
 * minute. Thread-safe.
 */
public final class AnonymousRefusals {
  private static final Logger LOG = LoggerFactory.getLogger(AnonymousRefusals.class);

  /**
   * The refusals of the last hour.
   *
   * @param clientId client id of the latest one; empty if it has none
   * @param address network address of the latest one
   */
  public record Summary(long count, String clientId, String address) {
    /** No refusals. */
    public static final Summary NONE = new Summary(0, "", "");

    /** A sentence with the remedy; empty if nothing was refused. */
    public String words() {
      return count == 0
          ? ""
          : count
              + (count == 1 ? " connection" : " connections")
              + " without an account refused within the last hour, the latest from the client \""
              + clientId
              + "\" at "
              + address
              + ". Make an account for it on the page Sensors, or set anonymousSensors: everywhere";
    }
  }

  private final LongSupplier nanos;
  private final RecentCount refused = new RecentCount();
  private Summary latest = Summary.NONE;

  AnonymousRefusals(LongSupplier nanos) {
    this.nanos = nanos;
  }

  synchronized void add(String clientId, String address) {
    String printable = Reject.printable(clientId);
    latest = new Summary(1, printable, address);
    if (refused.add(nanos.getAsLong())) {
      LOG.warn(
          "refused the client \"{}\" at {}, because it has no account. Make one on the page Sensors,"
              + " or set anonymousSensors: everywhere. Further refusals are not logged for one"
              + " minute",
          printable,
          address);
    }
  }

  synchronized Summary summary() {
    long count = refused.sum(nanos.getAsLong());
    return count == 0 ? Summary.NONE : new Summary(count, latest.clientId(), latest.address());
  }
}
