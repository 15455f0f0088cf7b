/** Stores readings in one SQLite file. */
@NullMarked
package tepidarium.series.sqlite;

import org.jspecify.annotations.NullMarked;
