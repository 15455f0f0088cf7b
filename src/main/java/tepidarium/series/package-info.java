/**
 * Storage of readings: the interfaces that each backend implements, and the values they exchange.
 */
@NullMarked
package tepidarium.series;

import org.jspecify.annotations.NullMarked;
