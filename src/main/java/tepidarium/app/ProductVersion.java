package tepidarium.app;

/** The version of the packaged program; "unpackaged" where it runs from class files. */
final class ProductVersion {
  private ProductVersion() {}

  static String get() {
    String version = ProductVersion.class.getPackage().getImplementationVersion();
    return version == null ? "unpackaged" : version;
  }
}
