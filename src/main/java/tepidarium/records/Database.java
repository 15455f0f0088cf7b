package tepidarium.records;

import java.util.function.Function;
import org.jdbi.v3.core.Handle;

/** Runs one transaction at a time against the records store, wherever it is. */
public interface Database extends AutoCloseable {
  /**
   * Runs the work as one transaction, durable when this returns.
   *
   * @throws tepidarium.series.StoreException when the store cannot answer now
   */
  <T> T transaction(Function<Handle, T> work);

  @Override
  void close();
}
