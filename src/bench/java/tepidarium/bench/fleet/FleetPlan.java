package tepidarium.bench.fleet;

/**
 * What is simulated: sites with one service that works and one that waits on another machine,
 * machines of three kinds, and how often they fail. Times between failures and repairs are
 * exponential with these means.
 *
 * @param sensors sensors in all sites, at least 1
 * @param everySeconds time between two readings of a sensor, s
 * @param sites sites, each with the same number of sensors
 * @param serviceMachines machines with services and brokers, at least 2
 * @param databaseMachines machines of the records' database, an odd number; a majority must be up
 * @param storeMachines machines of the readings' store, which has three copies; fewer than two are
 *     ever missing, or it stands still
 * @param siteRate readings/s that one service stores at most
 * @param storeRate readings/s that the whole store takes at most while all its machines are up
 * @param machineFailsDays mean time until a machine fails, days
 * @param repairHours mean time until it is repaired, hours
 * @param cutDays mean time until a machine is cut off from the network, days
 * @param cutSeconds mean time of a cut, s
 * @param processDays mean time until a working service ends by itself, days
 * @param brokerMovedSeconds time until another broker takes the place of a lost one, s
 */
public record FleetPlan(
    int sensors,
    double everySeconds,
    int sites,
    int serviceMachines,
    int databaseMachines,
    int storeMachines,
    double siteRate,
    double storeRate,
    double machineFailsDays,
    double repairHours,
    double cutDays,
    double cutSeconds,
    double processDays,
    double brokerMovedSeconds) {
  /** Readings/s that one site sends. */
  double sent() {
    return sensors / everySeconds / sites;
  }

  /** The same plan with another time until a lost broker is replaced. */
  public FleetPlan withBrokerMoved(double seconds) {
    return new FleetPlan(
        sensors,
        everySeconds,
        sites,
        serviceMachines,
        databaseMachines,
        storeMachines,
        siteRate,
        storeRate,
        machineFailsDays,
        repairHours,
        cutDays,
        cutSeconds,
        processDays,
        seconds);
  }
}
