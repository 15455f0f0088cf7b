/** Faults of sensors: the rules that find them in raw readings, and what the grower decided. */
@NullMarked
package tepidarium.fault;

import org.jspecify.annotations.NullMarked;
