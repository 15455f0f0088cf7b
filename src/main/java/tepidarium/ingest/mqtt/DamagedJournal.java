package tepidarium.ingest.mqtt;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/** Thrown when the embedded broker cannot read its journal; the message names the folder. */
public final class DamagedJournal extends IllegalStateException {
  private static final long serialVersionUID = 1;

  DamagedJournal(Path folder, String reason, @Nullable Throwable cause) {
    super("the journal of the embedded broker in " + folder + " is damaged: " + reason, cause);
  }
}
