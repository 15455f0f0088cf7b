/** Pure formulas over numbers; no clock, no input or output. */
@NullMarked
package tepidarium.stats;

import org.jspecify.annotations.NullMarked;
