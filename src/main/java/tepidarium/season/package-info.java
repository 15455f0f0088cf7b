/**
 * A season in figures: what was sown and what came up, what each container did meanwhile, what can
 * be compared, and what may be learned from it. Pure.
 */
@NullMarked
package tepidarium.season;

import org.jspecify.annotations.NullMarked;
