/** The germination record as CSV, out and in. */
@NullMarked
package tepidarium.exchange;

import org.jspecify.annotations.NullMarked;
