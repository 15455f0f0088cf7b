/** The login of the pages and the API: who may call which route, sign-in, people and tokens. */
@NullMarked
package tepidarium.web.access;

import org.jspecify.annotations.NullMarked;
