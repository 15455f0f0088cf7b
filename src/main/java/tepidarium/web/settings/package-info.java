/** The routes of the settings of the service. */
@NullMarked
package tepidarium.web.settings;

import org.jspecify.annotations.NullMarked;
