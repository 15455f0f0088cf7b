package tepidarium.container;

/** What the seeds lie in. */
public enum ContainerKind {
  BAG,
  BOX,
  JAR,
  TRAY
}
