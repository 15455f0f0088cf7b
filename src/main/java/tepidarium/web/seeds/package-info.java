/**
 * Routes and JSON of the germination record: species, lots, sowings, journal entries, checks due.
 */
@NullMarked
package tepidarium.web.seeds;

import org.jspecify.annotations.NullMarked;
