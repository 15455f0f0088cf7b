/** What a sensor reports: readings, sensors' names, quantities, and runs of samples. */
@NullMarked
package tepidarium.reading;

import org.jspecify.annotations.NullMarked;
