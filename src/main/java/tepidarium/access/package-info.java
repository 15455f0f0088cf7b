/** People, their roles, passwords and sessions, tokens for programs, and the limit on guesses. */
@NullMarked
package tepidarium.access;

import org.jspecify.annotations.NullMarked;
