/**
 * Records germination, from gathered seed to potted seedling, and analyses it: measures, fits,
 * planning and the effect of heat. Pure.
 */
@NullMarked
package tepidarium.germination;

import org.jspecify.annotations.NullMarked;
