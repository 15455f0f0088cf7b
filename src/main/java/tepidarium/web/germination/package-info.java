/** Routes and JSON of the results of sowings: curves, fits, heat, comparisons. */
@NullMarked
package tepidarium.web.germination;

import org.jspecify.annotations.NullMarked;
