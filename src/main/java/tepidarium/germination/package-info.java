/**
 * The germination record, every seed followed from gathering to pot, and how seeds germinate:
 * measures, fits, planning, and what heat does. Pure.
 */
@NullMarked
package tepidarium.germination;

import org.jspecify.annotations.NullMarked;
