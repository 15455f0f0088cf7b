/** Opens the records store in a PostgreSQL database, and keeps it connected. */
@NullMarked
package tepidarium.records.postgres;

import org.jspecify.annotations.NullMarked;
