/** HTTP routes, JSON shapes, the live stream and the pages. */
@NullMarked
package tepidarium.web;

import org.jspecify.annotations.NullMarked;
