package tepidarium.ingest.mqtt;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import org.apache.activemq.artemis.core.filter.Filter;
import org.apache.activemq.artemis.core.paging.PagedMessage;
import org.apache.activemq.artemis.core.paging.PagingStore;
import org.apache.activemq.artemis.core.paging.cursor.PageCursorProvider;
import org.apache.activemq.artemis.core.paging.cursor.PageSubscription;
import org.apache.activemq.artemis.core.paging.cursor.PagedReference;
import org.apache.activemq.artemis.core.paging.cursor.impl.PageCursorProviderImpl;
import org.apache.activemq.artemis.core.persistence.StorageManager;
import org.jspecify.annotations.Nullable;

/**
 * Creates the page cursors of one address lazily, when the first queue is bound to that address.
 * The broker's own class allocates a hash map of about 8 KB for every address. Topics of sensors
 * are addresses without a queue: the queue of the service is bound to the wildcard address. With
 * 10,000 topics, these maps used 79 MB of a heap of 256 MB, and garbage collection used most of the
 * processor time.
 */
final class LazyPageCursors implements PageCursorProvider {
  private final PagingStore store;
  private final StorageManager storage;
  private volatile @Nullable PageCursorProvider cursors;

  LazyPageCursors(PagingStore store, StorageManager storage) {
    this.store = store;
    this.storage = storage;
  }

  private synchronized PageCursorProvider cursors() {
    PageCursorProvider existing = cursors;
    if (existing == null) {
      existing = new PageCursorProviderImpl(store, storage);
      cursors = existing;
    }
    return existing;
  }

  private void ifCreated(Consumer<PageCursorProvider> action) {
    PageCursorProvider existing = cursors;
    if (existing != null) {
      action.accept(existing);
    }
  }

  @Override
  public PagedReference newReference(PagedMessage message, PageSubscription subscription) {
    return cursors().newReference(message, subscription);
  }

  @Override
  public @Nullable PageSubscription getSubscription(long queueId) {
    PageCursorProvider existing = cursors;
    return existing == null ? null : existing.getSubscription(queueId);
  }

  @Override
  public void forEachSubscription(Consumer<PageSubscription> consumer) {
    ifCreated(existing -> existing.forEachSubscription(consumer));
  }

  @Override
  public PageSubscription createSubscription(long queueId, Filter filter, boolean durable) {
    return cursors().createSubscription(queueId, filter, durable);
  }

  @Override
  public void processReload() throws Exception {
    if (cursors != null || store.isStorePaging()) {
      cursors().processReload();
    }
  }

  @Override
  public void stop() {
    ifCreated(PageCursorProvider::stop);
  }

  @Override
  public void counterSnapshot() {
    ifCreated(PageCursorProvider::counterSnapshot);
  }

  @Override
  public void flushExecutors() {
    store.flushExecutors();
  }

  @Override
  public Future<Boolean> scheduleCleanup() {
    return cursors == null && !store.isStorePaging()
        ? CompletableFuture.completedFuture(true)
        : cursors().scheduleCleanup();
  }

  @Override
  public void disableCleanup() {
    cursors().disableCleanup();
  }

  @Override
  public void resumeCleanup() {
    cursors().resumeCleanup();
  }

  @Override
  public void onPageModeCleared() {
    ifCreated(PageCursorProvider::onPageModeCleared);
  }

  @Override
  public void close(PageSubscription subscription) {
    cursors().close(subscription);
  }

  @Override
  public void checkClearPageLimit() {
    cursors().checkClearPageLimit();
  }

  @Override
  public void counterRebuildStarted() {
    cursors().counterRebuildStarted();
  }

  @Override
  public void counterRebuildDone() {
    ifCreated(PageCursorProvider::counterRebuildDone);
  }

  @Override
  public boolean isRebuildDone() {
    PageCursorProvider existing = cursors;
    return existing == null || existing.isRebuildDone();
  }
}
