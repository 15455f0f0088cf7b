/** Routes and JSON of what was measured in a container: readings, heat, light, time in band. */
@NullMarked
package tepidarium.web.history;

import org.jspecify.annotations.NullMarked;
