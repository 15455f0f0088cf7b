/** The live stream of server-sent events. */
@NullMarked
package tepidarium.web.live;

import org.jspecify.annotations.NullMarked;
