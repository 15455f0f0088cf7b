/** Notification channels: e-mail, webhook, and the heartbeat to another machine. */
@NullMarked
package tepidarium.alert.notify.channel;

import org.jspecify.annotations.NullMarked;
