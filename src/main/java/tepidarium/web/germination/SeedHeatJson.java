package tepidarium.web.germination;

import tepidarium.germination.Dose;

/**
 * Heat along the path of seeds, °C·h and h, as {@link Dose} defines it.
 *
 * @param ways how many different ways its seeds came
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
    int ways) {
  static SeedHeatJson of(Dose dose, int ways) {
    return new SeedHeatJson(
        dose.degreeHours(),
        dose.likely(),
        dose.lower(),
        dose.upper(),
        dose.least(),
        dose.most(),
        dose.coveredHours(),
        dose.gapHours(),
        ways);
  }
}
