package tepidarium.app;

import java.util.Set;

/**
 * Options of the command line that hold for one start only.
 *
 * @param setAside parts of the data folder to rename and replace if they cannot be used
 * @param trustClock whether to trust the clock of this machine although it differs from the last
 *     known time by more than a day
 */
record StartOptions(Set<DataPart> setAside, boolean trustClock) {
  static final StartOptions NONE = new StartOptions(Set.of(), false);

  StartOptions {
    setAside = Set.copyOf(setAside);
  }
}
