/** Queues readings on local disk while the readings store is down. */
@NullMarked
package tepidarium.series.spool;

import org.jspecify.annotations.NullMarked;
