package tepidarium.sites;

import java.net.URI;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * The state of another site, by its last answers.
 *
 * @param address of the machine that works, or the first one
 * @param trouble what is wrong
 * @param detail in the words of the site or of the system; null for none
 * @param since when this trouble was first seen; null for none
 * @param machines number of addresses
 * @param waiting number of addresses at which a machine answers that it waits
 * @param state what the site said last; null if it has said nothing yet
 */
public record SiteReport(
    String name,
    URI address,
    SiteTrouble trouble,
    @Nullable String detail,
    @Nullable Instant since,
    int machines,
    int waiting,
    @Nullable SiteState state) {}
