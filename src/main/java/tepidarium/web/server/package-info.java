/** The HTTP server: threads, limits on connections and requests, and answers to failures. */
@NullMarked
package tepidarium.web.server;

import org.jspecify.annotations.NullMarked;
