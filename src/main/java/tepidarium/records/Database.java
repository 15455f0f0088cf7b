package tepidarium.records;

import java.util.function.Function;
import org.jdbi.v3.core.Handle;

/** Runs transactions against the records store, one at a time. */
public interface Database extends AutoCloseable {
  /** The schema version that this program reads and writes, the same in every kind of database. */
  int SCHEMA_VERSION = 24;

  /**
   * Runs the work in one transaction and commits it; the changes are durable when this returns.
   * Inside the work of another transaction of the same thread, takes part in that transaction.
   *
   * @throws tepidarium.series.StoreException when the store is not available
   */
  <T> T transaction(Function<Handle, T> work);

  @Override
  void close();
}
