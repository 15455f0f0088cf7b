package tepidarium.exchange;

import java.util.function.Consumer;
import tepidarium.container.ContainerStore;
import tepidarium.germination.GerminationStore;
import tepidarium.sensor.SensorStore;

/**
 * The stores into which an import writes.
 *
 * @param transaction runs the work of an import in one transaction, in which all writes of the
 *     stores take part: all of them are durable afterwards, or none
 */
public record RecordStores(
    ContainerStore containers,
    SensorStore sensors,
    GerminationStore germination,
    Consumer<Runnable> transaction) {}
