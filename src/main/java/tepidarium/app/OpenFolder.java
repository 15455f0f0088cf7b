package tepidarium.app;

import java.time.Clock;
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
    DataFolder data = running.add(DataFolder.open(config.data()));
    NativeLibrary.unpackInto(data.resolve("native"));
    Manifest manifest = Manifest.read(config.data());
    boolean removesRaw = config.keeping().rawDays() != null;
    Backups backups = new Backups(config.data(), config.backupFolder());
    return new OpenFolder(
        new DataParts(config.data(), backups, clock, manifest, options.setAside(), removesRaw),
        data.clientId(manifest == null ? null : manifest.clientId()));
  }
}
