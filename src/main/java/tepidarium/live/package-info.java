/**
 * The current state: newest values, heat until now, and the thread that evaluates alert conditions.
 */
@NullMarked
package tepidarium.live;

import org.jspecify.annotations.NullMarked;
