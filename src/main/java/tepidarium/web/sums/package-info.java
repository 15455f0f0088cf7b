/** Routes and JSON of calculations on numbers that the caller sends. */
@NullMarked
package tepidarium.web.sums;

import org.jspecify.annotations.NullMarked;
