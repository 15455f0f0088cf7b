/** Exports and imports the germination record as CSV. */
@NullMarked
package tepidarium.exchange;

import org.jspecify.annotations.NullMarked;
