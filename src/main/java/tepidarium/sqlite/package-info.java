/** Opens SQLite files safely and migrates their schema. */
@NullMarked
package tepidarium.sqlite;

import org.jspecify.annotations.NullMarked;
