/**
 * Makes the report of a season: results of sowings and containers, comparisons and lessons. Pure.
 */
@NullMarked
package tepidarium.season;

import org.jspecify.annotations.NullMarked;
