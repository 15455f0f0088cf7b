/** Routes and JSON of a container's measurements: readings, heat, light, time in band. */
@NullMarked
package tepidarium.web.history;

import org.jspecify.annotations.NullMarked;
