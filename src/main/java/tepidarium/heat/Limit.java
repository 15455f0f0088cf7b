package tepidarium.heat;

/**
 * One limit of a band. A value exactly on the limit is inside.
 *
 * @param side side of the limit that is outside
 * @param value limit, in the unit of the quantity
 */
public record Limit(Side side, double value) {
  /** The side of the limit that is outside. */
  public enum Side {
    /** Values below the limit are outside. */
    LOW,
    /** Values above the limit are outside. */
    HIGH
  }

  public static Limit low(double value) {
    return new Limit(Side.LOW, value);
  }

  public static Limit high(double value) {
    return new Limit(Side.HIGH, value);
  }

  public boolean outside(double candidate) {
    return side == Side.LOW ? candidate < value : candidate > value;
  }

  /** Whether the candidate lies further outside than the other. */
  boolean worse(double candidate, double other) {
    return side == Side.LOW ? candidate < other : candidate > other;
  }
}
