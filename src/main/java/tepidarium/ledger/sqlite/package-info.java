/** The ledger in one SQLite file. */
@NullMarked
package tepidarium.ledger.sqlite;

import org.jspecify.annotations.NullMarked;
