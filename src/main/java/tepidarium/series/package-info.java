/** Keeping readings and reading them back; the backends stand behind the interfaces here. */
@NullMarked
package tepidarium.series;

import org.jspecify.annotations.NullMarked;
