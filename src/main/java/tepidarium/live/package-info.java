/** What is going on now: newest values, heat so far, and the one thread that watches conditions. */
@NullMarked
package tepidarium.live;

import org.jspecify.annotations.NullMarked;
