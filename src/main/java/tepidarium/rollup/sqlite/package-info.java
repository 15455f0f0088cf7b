/** Stores hourly rollups in one SQLite file. */
@NullMarked
package tepidarium.rollup.sqlite;

import org.jspecify.annotations.NullMarked;
