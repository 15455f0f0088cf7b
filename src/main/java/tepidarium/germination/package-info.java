/** The germination record: every seed followed from gathering to pot. */
@NullMarked
package tepidarium.germination;

import org.jspecify.annotations.NullMarked;
