/** Runs the MQTT client and the embedded broker. Only this package depends on their libraries. */
@NullMarked
package tepidarium.ingest.mqtt;

import org.jspecify.annotations.NullMarked;
