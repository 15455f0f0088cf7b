/** Copies readings from one store to another and verifies them by checksums. */
@NullMarked
package tepidarium.moving;

import org.jspecify.annotations.NullMarked;
