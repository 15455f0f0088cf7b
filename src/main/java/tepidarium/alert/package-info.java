/** Alerts: rules, conditions, and the life cycle of an alert after ANSI/ISA-18.2. */
@NullMarked
package tepidarium.alert;

import org.jspecify.annotations.NullMarked;
