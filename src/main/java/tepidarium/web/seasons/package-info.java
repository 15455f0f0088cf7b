/** Routes and JSON of season reports. */
@NullMarked
package tepidarium.web.seasons;

import org.jspecify.annotations.NullMarked;
