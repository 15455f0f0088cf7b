/**
 * Conditions that need a person, their life cycle after ANSI/ISA-18.2, and the board that holds
 * them.
 */
@NullMarked
package tepidarium.alert;

import org.jspecify.annotations.NullMarked;
