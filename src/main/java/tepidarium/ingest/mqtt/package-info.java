/** The only place that knows the MQTT client and the embedded broker. */
@NullMarked
package tepidarium.ingest.mqtt;

import org.jspecify.annotations.NullMarked;
