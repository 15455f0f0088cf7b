/** The past of a container: its sensors' readings put together by placement and calibration. */
@NullMarked
package tepidarium.history;

import org.jspecify.annotations.NullMarked;
