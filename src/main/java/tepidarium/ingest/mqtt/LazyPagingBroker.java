package tepidarium.ingest.mqtt;

import org.apache.activemq.artemis.core.config.Configuration;
import org.apache.activemq.artemis.core.paging.PagingStore;
import org.apache.activemq.artemis.core.paging.PagingStoreFactory;
import org.apache.activemq.artemis.core.paging.cursor.PageCursorProvider;
import org.apache.activemq.artemis.core.paging.impl.PagingStoreFactoryNIO;
import org.apache.activemq.artemis.core.persistence.StorageManager;
import org.apache.activemq.artemis.core.server.impl.ActiveMQServerImpl;
import org.apache.activemq.artemis.core.settings.impl.AddressSettings;
import org.apache.activemq.artemis.spi.core.security.ActiveMQSecurityManager;
import org.apache.activemq.artemis.utils.actors.ArtemisExecutor;

/** An Artemis broker that uses less memory per topic, with {@link LazyPageCursors}. */
final class LazyPagingBroker extends ActiveMQServerImpl {
  LazyPagingBroker(Configuration configuration, ActiveMQSecurityManager accounts) {
    super(configuration, accounts);
  }

  @Override
  protected PagingStoreFactory getPagingStoreFactory() throws Exception {
    PagingStoreFactory factory = super.getPagingStoreFactory();
    return factory instanceof PagingStoreFactoryNIO files ? new Factory(files) : factory;
  }

  /** Creates page stores like the broker's own factory, with {@link LazyPageCursors}. */
  private static final class Factory extends PagingStoreFactoryNIO {
    Factory(PagingStoreFactoryNIO original) {
      super(
          original.getStorageManager(),
          original.getDirectory(),
          original.getSyncTimeout(),
          original.getScheduledExecutor(),
          original.getExecutorFactory(),
          original.isSyncNonTransactional(),
          original.getCritialErrorListener());
    }

    @Override
    public PageCursorProvider newCursorProvider(
        PagingStore store,
        StorageManager storage,
        AddressSettings settings,
        ArtemisExecutor executor) {
      return new LazyPageCursors(store, storage);
    }
  }
}
