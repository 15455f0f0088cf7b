package tepidarium.records.postgres;

/**
 * A service that waits to take over.
 *
 * @param machine name of its machine
 * @param reachesBroker whether it can connect to the broker's port
 */
public record WaitingService(String machine, boolean reachesBroker) {}
