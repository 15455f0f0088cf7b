/** Labels of containers, with a QR code that opens the check of a container. */
@NullMarked
package tepidarium.web.labels;

import org.jspecify.annotations.NullMarked;
