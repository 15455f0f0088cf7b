/** Opens the records store in one SQLite file. */
@NullMarked
package tepidarium.records.sqlite;

import org.jspecify.annotations.NullMarked;
