/**
 * Who is told what, when: rules for quiet hours, digests, escalation and reminders, the words of a
 * notice, and its way through a durable outbox.
 */
@NullMarked
package tepidarium.alert.notify;

import org.jspecify.annotations.NullMarked;
