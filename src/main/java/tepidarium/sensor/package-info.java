/** Sensors as devices: their record, their reporting, their battery, changes of their placement. */
@NullMarked
package tepidarium.sensor;

import org.jspecify.annotations.NullMarked;
