/** Routes that send and take files of readings. */
@NullMarked
package tepidarium.web.files;

import org.jspecify.annotations.NullMarked;
