/** Connections to PostgreSQL databases, and words for their failures. */
@NullMarked
package tepidarium.postgres;

import org.jspecify.annotations.NullMarked;
