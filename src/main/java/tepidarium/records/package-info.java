/** The small, precious record behind the domain's interfaces. */
@NullMarked
package tepidarium.records;

import org.jspecify.annotations.NullMarked;
