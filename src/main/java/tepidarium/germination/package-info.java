/** How seeds germinate: measures, fits, planning, and what heat does; pure formulas. */
@NullMarked
package tepidarium.germination;

import org.jspecify.annotations.NullMarked;
