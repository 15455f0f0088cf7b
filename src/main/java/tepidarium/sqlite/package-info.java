/** Opening an SQLite file safely and bringing its schema up to date. */
@NullMarked
package tepidarium.sqlite;

import org.jspecify.annotations.NullMarked;
