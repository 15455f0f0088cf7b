/** Keeps readings on local disk while the readings store is away. */
@NullMarked
package tepidarium.series.spool;

import org.jspecify.annotations.NullMarked;
