/** Serves the pages and the documents. */
@NullMarked
package tepidarium.web.pages;

import org.jspecify.annotations.NullMarked;
