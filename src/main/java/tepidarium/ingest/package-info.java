/** Decodes messages into readings, queues them, writes them to the store, and counts them. */
@NullMarked
package tepidarium.ingest;

import org.jspecify.annotations.NullMarked;
