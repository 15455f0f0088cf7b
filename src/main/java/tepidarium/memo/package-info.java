/** Remembers answers, so that they are not worked out again. */
@NullMarked
package tepidarium.memo;

import org.jspecify.annotations.NullMarked;
