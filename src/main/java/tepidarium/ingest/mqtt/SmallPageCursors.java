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
 * Creates the page cursors of one address when the first queue is bound to that address. The
 * broker's own class allocates a hash map of about 8 KB for every address. A topic that sensors
 * publish to is an address without a queue of its own: the queue of the service is bound to the
 * wildcard address. With 10,000 topics the maps took 79 MB of a heap of 256 MB, and the collector
 * most of the time.
 */
final class SmallPageCursors implements PageCursorProvider {
  private final PagingStore store;
  private final StorageManager storage;
  private volatile @Nullable PageCursorProvider cursors;

  SmallPageCursors(PagingStore store, StorageManager storage) {
    this.store = store;
    this.storage = storage;
  }

  private synchronized PageCursorProvider cursors() {
    PageCursorProvider known = cursors;
    if (known == null) {
      known = new PageCursorProviderImpl(store, storage);
      cursors = known;
    }
    return known;
  }

  private void ifAny(Consumer<PageCursorProvider> action) {
    PageCursorProvider known = cursors;
    if (known != null) {
      action.accept(known);
    }
  }

  @Override
  public PagedReference newReference(PagedMessage message, PageSubscription subscription) {
    return cursors().newReference(message, subscription);
  }

  @Override
  public @Nullable PageSubscription getSubscription(long queueId) {
    PageCursorProvider known = cursors;
    return known == null ? null : known.getSubscription(queueId);
  }

  @Override
  public void forEachSubscription(Consumer<PageSubscription> consumer) {
    ifAny(known -> known.forEachSubscription(consumer));
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
    ifAny(PageCursorProvider::stop);
  }

  @Override
  public void counterSnapshot() {
    ifAny(PageCursorProvider::counterSnapshot);
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
    ifAny(PageCursorProvider::onPageModeCleared);
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
    ifAny(PageCursorProvider::counterRebuildDone);
  }

  @Override
  public boolean isRebuildDone() {
    PageCursorProvider known = cursors;
    return known == null || known.isRebuildDone();
  }
}
