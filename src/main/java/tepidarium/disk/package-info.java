/** Free space on disks, sizes of folders, and the forecast of when a disk is full. */
@NullMarked
package tepidarium.disk;

import org.jspecify.annotations.NullMarked;
