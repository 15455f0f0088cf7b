package tepidarium.ingest;

/** Converts a number of a device to its unit: multiplies it by a factor, then adds a constant. */
record Scale(double factor, double plus) {
  static final Scale NONE = new Scale(1, 0);

  /** Removes digits that only the multiplication made, such as in 21.470000000000002. */
  private static final double STEPS = 1_000_000;

  double apply(double number) {
    return equals(NONE) ? number : Math.rint((number * factor + plus) * STEPS) / STEPS;
  }
}
