package tepidarium.app;

import java.util.Set;

/**
 * What the command line allows for one start.
 *
 * @param setAside parts of the data folder that are given another name where they cannot be used
 * @param trustClock whether the clock of this machine is right although it is in doubt
 */
record StartOptions(Set<DataPart> setAside, boolean trustClock) {
  static final StartOptions NONE = new StartOptions(Set.of(), false);

  StartOptions {
    setAside = Set.copyOf(setAside);
  }
}
