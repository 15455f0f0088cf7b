/** Shared by all routes: parameters, JSON, problems. */
@NullMarked
package tepidarium.web;

import org.jspecify.annotations.NullMarked;
