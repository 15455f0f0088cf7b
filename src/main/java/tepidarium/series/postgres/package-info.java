/** Stores readings in a PostgreSQL database. */
@NullMarked
package tepidarium.series.postgres;

import org.jspecify.annotations.NullMarked;
