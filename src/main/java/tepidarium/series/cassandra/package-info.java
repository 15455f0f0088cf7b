/** Stores readings in a Cassandra cluster. */
@NullMarked
package tepidarium.series.cassandra;

import org.jspecify.annotations.NullMarked;
