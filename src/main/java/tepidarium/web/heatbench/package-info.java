/** Routes and JSON of the heat bench: comparison of containers, trial of a place. */
@NullMarked
package tepidarium.web.heatbench;

import org.jspecify.annotations.NullMarked;
