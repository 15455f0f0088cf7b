package tepidarium.web.access;

import java.time.Clock;
import tepidarium.access.Access;

/**
 * The login that the routes use.
 *
 * @param asks whether the pages and the API ask for a login
 * @param exposed whether other machines reach the pages without a login
 */
public record Login(Access access, boolean asks, boolean exposed, Clock clock) {}
