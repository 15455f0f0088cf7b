/** The state of this site, and what the other sites of the network say of theirs. */
@NullMarked
package tepidarium.sites;

import org.jspecify.annotations.NullMarked;
