/** Routes and JSON of the service itself: health, set-up, rejected messages, metrics. */
@NullMarked
package tepidarium.web.system;

import org.jspecify.annotations.NullMarked;
