/** Connects to PostgreSQL databases, and says in words what is wrong with them. */
@NullMarked
package tepidarium.postgres;

import org.jspecify.annotations.NullMarked;
