/** SQL of readings that SQLite and PostgreSQL understand. */
@NullMarked
package tepidarium.series.sql;

import org.jspecify.annotations.NullMarked;
