package tepidarium.pages;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import tepidarium.it.Grower;
import tepidarium.it.Publisher;
import tepidarium.it.RunningService;

/** Gives each test a service without any data, its grower, a sensor, and a browser. */
abstract class OnEmptyService {
  @TempDir Path data;
  RunningService service;
  Grower grower;
  Publisher sensor;
  Browser browser;

  @BeforeEach
  void startService() {
    service = RunningService.embedded(data);
    grower = new Grower(service.api());
    grower.awaitBroker();
    sensor = Publisher.to(service.mqttPort());
    browser = Browser.start();
  }

  @AfterEach
  void stopService() {
    browser.close();
    service.close();
  }
}
