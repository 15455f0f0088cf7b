/** An invented scenario that publishes real MQTT. */
@NullMarked
package tepidarium.app.demo;

import org.jspecify.annotations.NullMarked;
