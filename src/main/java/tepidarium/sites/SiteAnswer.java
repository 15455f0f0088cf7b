package tepidarium.sites;

import java.net.URI;
import org.jspecify.annotations.Nullable;

/**
 * What came from one address of a site.
 *
 * @param detail in words, if there is no state; null for none
 * @param state what the site says of itself; null unless the machine works
 */
record SiteAnswer(URI address, Kind kind, @Nullable String detail, @Nullable SiteState state) {
  /** The kinds of answers, the one that counts first. */
  enum Kind {
    WORKS(SiteTrouble.NONE),
    REFUSED(SiteTrouble.REFUSED),
    UNREADABLE(SiteTrouble.UNREADABLE),
    WAITS(SiteTrouble.NOBODY_WORKS),
    UNREACHABLE(SiteTrouble.UNREACHABLE);

    private final SiteTrouble trouble;

    Kind(SiteTrouble trouble) {
      this.trouble = trouble;
    }
  }

  SiteTrouble trouble() {
    return state == null ? kind.trouble : SiteTrouble.of(state);
  }
}
