package tepidarium.ingest.mqtt;

import java.util.Map;
import javax.net.ssl.SSLContext;
import org.apache.activemq.artemis.core.remoting.impl.netty.TransportConstants;
import org.apache.activemq.artemis.spi.core.remoting.ssl.SSLContextConfig;
import org.apache.activemq.artemis.spi.core.remoting.ssl.SSLContextFactory;

/**
 * Gives the embedded broker the TLS context in the parameters of its port. The library's own
 * factory reads key stores only, no PEM files. The library finds this class as a service of Java.
 */
public final class GivenSslContext implements SSLContextFactory {
  /** Higher than the 5 of the library's own factory. */
  private static final int PRIORITY = 100;

  @Override
  public SSLContext getSSLContext(SSLContextConfig config, Map<String, Object> parameters) {
    if (parameters.get(TransportConstants.SSL_CONTEXT_PROP_NAME) instanceof SSLContext given) {
      return given;
    }
    throw new IllegalArgumentException("the port has no TLS context");
  }

  @Override
  public int getPriority() {
    return PRIORITY;
  }
}
