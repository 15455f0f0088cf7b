/** Writes, checks and reads backup files, and makes them regularly. */
@NullMarked
package tepidarium.backup;

import org.jspecify.annotations.NullMarked;
