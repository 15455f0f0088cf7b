/** Calculates degree-hours, time in band, excursions, heat comparisons and trials. Pure. */
@NullMarked
package tepidarium.heat;

import org.jspecify.annotations.NullMarked;
