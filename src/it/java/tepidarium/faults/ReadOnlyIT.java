package tepidarium.faults;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tepidarium.it.Mosquitto;
import tepidarium.it.Ports;
import tepidarium.it.ServiceProcess;

/** A data folder that can be read and not written, at the start and later. */
class ReadOnlyIT {
  private static final int SECONDS = Form.of(3, 30);
  private static final int SENSORS = 4;
  private static final int ENOUGH = 500;

  @TempDir private Path folder;

  @Test
  void aServiceDoesNotStartOnAFolderThatItCannotWriteTo() {
    AssertionError ended =
        assertThrows(
            AssertionError.class,
            () -> ServiceProcess.start(folder, Path.of("/proc/data"), Ports.free(), "embedded"));

    String words = String.valueOf(ended.getMessage());
    assertTrue(words.contains("cannot use the data folder /proc/data"), words);
    assertTrue(words.contains("--data"), words);
  }

  /** A disk that fails as a worn memory card does, where the test may mount one. */
  static Stream<Boolean> disks() {
    return Stream.of(SmallDisk.canMount());
  }

  @ParameterizedTest
  @MethodSource("disks")
  void readingsWaitInTheBrokerWhileNothingCanBeWritten(boolean ofItsOwn) {
    SmallDisk disk = ofItsOwn ? SmallDisk.inAFile(folder.resolve("disk"), 128) : null;
    try (Shortage limit = Shortage.fileSizeLimit(folder);
        Mosquitto broker = Mosquitto.started(folder.resolve("mosquitto"))) {
      Path data = disk == null ? limit.data() : disk.folder().resolve("data");
      String address = "tcp://127.0.0.1:" + broker.port();
      try (Supervised service =
              Supervised.start(() -> ServiceProcess.start(folder, data, Ports.free(), address));
          Load load = Load.on(broker.port(), SENSORS)) {
        load.awaitMore(ENOUGH);
        long pid = service.process().pid();
        if (disk == null) {
          limit.begin(pid);
        } else {
          disk.fail();
        }
        await().atMost(Form.SOON).until(() -> !writes(service));
        load.awaitMore(ENOUGH);
        Form.last(SECONDS);
        String died = service.process().isAlive() ? "" : ", service ended by the system";
        long from = System.nanoTime();
        if (disk == null) {
          limit.end(pid);
        } else {
          service.hold();
          disk.mountAgain();
          from = System.nanoTime();
          service.release();
          await().atMost(Form.SOON).until(() -> service.restarts() > 0);
        }
        double seconds = Health.secondsUntilUp(service::grower, from);
        load.finish();
        await().atMost(Form.SOON).until(() -> load.lost(Stored.in(data).seconds()) == 0);
        Tally tally = service.settled();

        Stored stored = Stored.in(data);
        assertEquals(load.acknowledged(), stored.rows());
        new Row(
                "data folder read-only for " + SECONDS + " s, Mosquitto" + died,
                tally,
                load.lost(stored.seconds()),
                stored.repeated() + load.madeUp(stored.seconds()),
                seconds)
            .check();
      }
    } finally {
      if (disk != null) {
        disk.close();
      }
    }
  }

  private static boolean writes(Supervised service) {
    try {
      return Health.isUp(service.grower());
    } catch (RuntimeException e) {
      return service.process().isAlive();
    }
  }
}
