package tepidarium.app;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.series.spool.Spool;
import tepidarium.web.system.ServiceInfo.Part;

/** Describes the health of the readings store in a sentence. */
final class StorageHealth {
  private StorageHealth() {}

  /**
   * Describes the store and its spool.
   *
   * @param place name of the store
   * @param spool state of the spool in front of the store; null without a spool
   */
  static Part of(String place, Spool.@Nullable State spool) {
    if (spool == null || (spool.awaySince() == null && spool.waiting() == 0)) {
      return Part.up("writing to " + place);
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
            "InfluxDB has not answered since %s; %d readings are kept on this disk (%.1f %% of the"
                + " spool). %s",
            spool.awaySince(),
            spool.waiting(),
            100 * spool.share(),
            spool.reason()));
  }
}
