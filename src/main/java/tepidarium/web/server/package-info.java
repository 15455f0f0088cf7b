/** The HTTP server: threads, limits on connections and requests, and responses to errors. */
@NullMarked
package tepidarium.web.server;

import org.jspecify.annotations.NullMarked;
