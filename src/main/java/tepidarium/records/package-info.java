/**
 * Implements the domain's storage interfaces on the relational records store: containers, alerts,
 * notices, germination records. This data is small and cannot be replaced.
 */
@NullMarked
package tepidarium.records;

import org.jspecify.annotations.NullMarked;
