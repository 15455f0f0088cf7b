/** Containers, their warm-dark band, and where sensors are placed and when. */
@NullMarked
package tepidarium.container;

import org.jspecify.annotations.NullMarked;
