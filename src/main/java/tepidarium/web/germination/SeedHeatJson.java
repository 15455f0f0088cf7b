package tepidarium.web.germination;

import tepidarium.germination.SeedHeat;

/**
 * Heat along the path of seeds, °C·h and h, as {@link SeedHeat} defines it.
 *
 * @param ways number of different paths of its seeds
 */
record SeedHeatJson(
    double degreeHours,
    double likely,
    double lower,
    double upper,
    double least,
    double most,
    double coveredHours,
    double gapHours,
    double leftOutHours,
    int ways) {
  static SeedHeatJson of(SeedHeat seedHeat, int ways) {
    return new SeedHeatJson(
        seedHeat.degreeHours(),
        seedHeat.likely(),
        seedHeat.lower(),
        seedHeat.upper(),
        seedHeat.least(),
        seedHeat.most(),
        seedHeat.coveredHours(),
        seedHeat.gapHours(),
        seedHeat.leftOutHours(),
        ways);
  }
}
