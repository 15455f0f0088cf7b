package tepidarium.container;

/** The kind of container. */
public enum ContainerKind {
  BAG,
  BOX,
  JAR,
  TRAY
}
