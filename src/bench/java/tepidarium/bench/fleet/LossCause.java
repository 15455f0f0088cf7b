package tepidarium.bench.fleet;

/** Why nobody works for a site. */
public enum LossCause {
  /** The service ended by itself. */
  PROCESS,
  /** The machine of the service failed. */
  MACHINE,
  /** The machine of the service was cut off from the network. */
  NETWORK,
  /** The machine that leads the records' database failed or was cut off. */
  DATABASE
}
