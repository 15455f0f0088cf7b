/** Sends changes to the open pages as server-sent events. */
@NullMarked
package tepidarium.web.live;

import org.jspecify.annotations.NullMarked;
