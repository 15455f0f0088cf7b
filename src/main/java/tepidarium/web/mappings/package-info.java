/** Routes for mapping rules, and for the messages that no rule reads. */
@NullMarked
package tepidarium.web.mappings;

import org.jspecify.annotations.NullMarked;
