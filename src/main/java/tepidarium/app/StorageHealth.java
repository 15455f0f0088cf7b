package tepidarium.app;

import java.util.Locale;
import tepidarium.series.spool.Spool;
import tepidarium.web.system.ServiceInfo.Part;

/** Describes the health of the readings store in a sentence. */
final class StorageHealth {
  private StorageHealth() {}

  /** Describes a store in the data folder. */
  static Part of(String place) {
    return Part.up("writing to " + place);
  }

  /**
   * Describes a store on a server and its spool.
   *
   * @param product name of the server's program
   * @param place name of the store
   * @param warning what its operator should change; empty for nothing
   */
  static Part of(String product, String place, String warning, Spool.State spool) {
    if (spool.awaySince() == null && spool.waiting() == 0) {
      return of(warning.isEmpty() ? place : place + ". Warning: " + warning);
    }
    if (spool.awaySince() == null) {
      return Part.up(
          place
              + " answers again: "
              + spool.waiting()
              + " readings on this disk are being sent"
              + " to it");
    }
    return Part.down(
        String.format(
            Locale.ROOT,
            "%s has not answered since %s; %d readings are kept on this disk (%.1f %% of the"
                + " spool). Reason: %s",
            product,
            spool.awaySince(),
            spool.waiting(),
            100 * spool.share(),
            spool.reason()));
  }
}
