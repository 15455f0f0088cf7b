/**
 * Notifications: rules for grouping, quiet hours, escalation and reminders; the text of notices;
 * delivery through a durable outbox.
 */
@NullMarked
package tepidarium.alert.notify;

import org.jspecify.annotations.NullMarked;
