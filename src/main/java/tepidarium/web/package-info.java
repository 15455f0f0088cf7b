/** Code shared by all routes: request parameters, JSON, error responses. */
@NullMarked
package tepidarium.web;

import org.jspecify.annotations.NullMarked;
