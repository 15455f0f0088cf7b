package tepidarium.sqlite;

/**
 * The schema of a data file.
 *
 * @param scripts the folder of the numbered migration scripts on the class path
 * @param version the number of the newest script
 */
public record Schema(String scripts, int version) {
  public Schema {
    if (version < 1) {
      throw new IllegalArgumentException("a schema version is 1 or more, not " + version);
    }
  }
}
