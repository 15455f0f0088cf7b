/** Light events, their probable sources, and light dose; pure functions over samples. */
@NullMarked
package tepidarium.light;

import org.jspecify.annotations.NullMarked;
