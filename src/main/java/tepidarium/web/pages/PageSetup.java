package tepidarium.web.pages;

import java.time.ZoneId;
import org.jspecify.annotations.Nullable;

/**
 * What the settings change on every page.
 *
 * @param zone in which the days and times of the pages are
 * @param site name of the site, shown beside that of the product; null for none
 * @param otherSites whether the menu names the page Sites
 */
public record PageSetup(ZoneId zone, @Nullable String site, boolean otherSites) {
  /** For a site without a name, of no network. */
  public static PageSetup of(ZoneId zone) {
    return new PageSetup(zone, null, false);
  }
}
