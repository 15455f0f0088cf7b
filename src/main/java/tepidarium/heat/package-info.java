/** Degree-hours, time in band and excursions: pure functions over samples. */
@NullMarked
package tepidarium.heat;

import org.jspecify.annotations.NullMarked;
