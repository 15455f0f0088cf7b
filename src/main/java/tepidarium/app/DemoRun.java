package tepidarium.app;

import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeoutException;
import tepidarium.app.demo.Demo;

/** The demo on the command line: runs until it is stopped, and says what goes on. */
final class DemoRun {
  private final DemoService demo;
  private final CountDownLatch stopped = new CountDownLatch(1);
  private volatile boolean stopping;

  private DemoRun(DemoService demo) {
    this.demo = demo;
  }

  /** Returns when the demo has been stopped. */
  static int serve(Config config) throws InterruptedException {
    DemoRun run = new DemoRun(DemoService.start(config, Clock.tickMillis(ZoneOffset.UTC)));
    Runtime.getRuntime().addShutdownHook(new Thread(run::stop, "stop"));
    System.out.println("Tepidarium demo: a school garden's propagation shed, all of it invented.");
    System.out.println("Four weeks of its readings are coming in over MQTT.");
    System.out.println(
        "Open http://" + Main.shown(config.httpHost()) + ":" + run.demo.httpPort() + " to see it.");
    run.loadHistory();
    run.stopped.await();
    return 0;
  }

  private void loadHistory() throws InterruptedException {
    try {
      report(demo.loadHistory());
    } catch (TimeoutException e) {
      throw new IllegalStateException("the demo's history did not come in: " + e.getMessage(), e);
    } catch (RuntimeException e) {
      // Stopped while the history was under way: nothing that anybody needs to know.
      if (!stopping) {
        throw e;
      }
    }
  }

  private static void report(Demo.LoadedHistory filled) {
    System.out.printf(
        Locale.ROOT,
        "The history is in: %,d readings in %.1f s. Live readings follow every %d s.%n",
        filled.readings(),
        seconds(filled.took()),
        Demo.LIVE_PERIOD.toSeconds());
    System.out.println("Ctrl-C stops the demo and throws its data away.");
  }

  private static double seconds(Duration time) {
    return time.toMillis() / 1000.0;
  }

  private void stop() {
    stopping = true;
    demo.close();
    stopped.countDown();
  }
}
