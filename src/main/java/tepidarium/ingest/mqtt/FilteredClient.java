package tepidarium.ingest.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.function.UnaryOperator;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.internal.NetworkModule;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.jspecify.annotations.Nullable;

/** An MQTT client that reads through a filter stream. Each connection gets a new filter. */
final class FilteredClient extends MqttAsyncClient {
  private final UnaryOperator<InputStream> filter;

  FilteredClient(String uri, String clientId, UnaryOperator<InputStream> filter)
      throws MqttException {
    super(uri, clientId, new MemoryPersistence());
    this.filter = filter;
  }

  @Override
  protected NetworkModule[] createNetworkModules(String address, MqttConnectionOptions options)
      throws MqttException {
    NetworkModule[] modules = super.createNetworkModules(address, options);
    for (int i = 0; i < modules.length; i++) {
      modules[i] = new Filtered(modules[i], filter);
    }
    return modules;
  }

  /** A connection whose input goes through the filter. */
  private static final class Filtered implements NetworkModule {
    private final NetworkModule module;
    private final UnaryOperator<InputStream> filter;
    private @Nullable InputStream in;

    Filtered(NetworkModule module, UnaryOperator<InputStream> filter) {
      this.module = module;
      this.filter = filter;
    }

    @Override
    public void start() throws IOException, MqttException {
      module.start();
      in = filter.apply(module.getInputStream());
    }

    @Override
    public InputStream getInputStream() throws IOException {
      InputStream filtered = in;
      return filtered == null ? module.getInputStream() : filtered;
    }

    @Override
    public OutputStream getOutputStream() throws IOException {
      return module.getOutputStream();
    }

    @Override
    public void stop() throws IOException {
      module.stop();
    }

    @Override
    public String getServerURI() {
      return module.getServerURI();
    }
  }
}
