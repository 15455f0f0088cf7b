package tepidarium.app;

import java.time.Clock;
import org.jspecify.annotations.Nullable;
import tepidarium.sqlite.NativeLibrary;

/**
 * The data folder, locked for this process.
 *
 * @param parts the stores in the folder and their state
 * @param clientId MQTT client id of the service, stable over restarts
 */
record OpenFolder(DataParts parts, String clientId) {

  /** Locks the folder. {@code running} unlocks it last, after all other parts have stopped. */
  static OpenFolder open(Config config, StartOptions options, Clock clock, RunningParts running) {
    return open(config, options, clock, running, null);
  }

  /**
   * The same with the MQTT client id for a folder that has none yet.
   *
   * @param clientId null to make a new one
   */
  static OpenFolder open(
      Config config,
      StartOptions options,
      Clock clock,
      RunningParts running,
      @Nullable String clientId) {
    DataFolder data = running.add(DataFolder.open(config.data()));
    NativeLibrary.unpackInto(data.resolve("native"));
    Manifest manifest = Manifest.read(config.data());
    String copy = manifest == null ? null : manifest.clientId();
    return new OpenFolder(
        parts(config, options, clock, manifest), data.clientId(copy == null ? clientId : copy));
  }

  /** The parts of a folder that a running service holds. Only to read from them. */
  static DataParts inUse(Config config, StartOptions options, Clock clock) {
    NativeLibrary.unpackInto(config.data().resolve("native"));
    return parts(config, options, clock, Manifest.read(config.data()));
  }

  private static DataParts parts(
      Config config, StartOptions options, Clock clock, @Nullable Manifest manifest) {
    boolean removesRaw = config.keeping().rawDays() != null;
    Backups backups = new Backups(config.data(), config.backupFolder());
    return new DataParts(config.data(), backups, clock, manifest, options.setAside(), removesRaw);
  }
}
