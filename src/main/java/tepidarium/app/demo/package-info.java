/** Simulates a garden with sensors for the demo. Uses the HTTP API and MQTT as real clients do. */
@NullMarked
package tepidarium.app.demo;

import org.jspecify.annotations.NullMarked;
