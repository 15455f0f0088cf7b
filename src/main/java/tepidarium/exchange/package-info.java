/** Exports and imports the record as CSV: containers, sensors, and the germination record. */
@NullMarked
package tepidarium.exchange;

import org.jspecify.annotations.NullMarked;
