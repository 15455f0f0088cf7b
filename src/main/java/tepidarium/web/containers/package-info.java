/** Routes and JSON of containers and their openings. */
@NullMarked
package tepidarium.web.containers;

import org.jspecify.annotations.NullMarked;
