package tepidarium.sqlite;

import java.nio.file.Path;

/** Thrown when a data file is damaged or too new; the message names the file and the reason. */
public abstract sealed class UnusableFile extends IllegalStateException {
  private static final long serialVersionUID = 1;

  private UnusableFile(String message, Throwable cause) {
    super(message, cause);
  }

  private UnusableFile(String message) {
    super(message);
  }

  /** Thrown when the content is not what SQLite or the schema expects. */
  public static final class Damaged extends UnusableFile {
    private static final long serialVersionUID = 1;

    Damaged(Path file, String reason, Throwable cause) {
      super(file + " is damaged: " + reason, cause);
    }

    Damaged(Path file, String reason) {
      super(file + " is damaged: " + reason);
    }
  }

  /** Thrown when a later version of the program has written the file. */
  public static final class NewerVersion extends UnusableFile {
    private static final long serialVersionUID = 1;

    NewerVersion(Path file, int found, int supported) {
      super(
          file
              + " was written by a later version of Tepidarium: it has schema version "
              + found
              + ", and this version supports versions up to "
              + supported);
    }
  }
}
