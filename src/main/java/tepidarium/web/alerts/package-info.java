/** Routes and JSON of alerts, alert rules and notices. */
@NullMarked
package tepidarium.web.alerts;

import org.jspecify.annotations.NullMarked;
