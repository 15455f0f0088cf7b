package tepidarium.stats;

/**
 * The profile likelihood of one parameter: the other parameters are fitted at each of its values.
 */
final class Profile {
  private static final double FARTHEST = 60;
  private static final int MOST_ROUNDS = 60;

  private final Maximum.Smooth function;
  private final double[] top;
  private final double height;
  private final int index;
  private double[] others;

  Profile(Maximum.Smooth function, double[] top, double height, int index) {
    this.function = function;
    this.top = top;
    this.height = height;
    this.index = index;
    this.others = without(top);
  }

  /**
   * The root drop: the square root of twice the drop of the log-likelihood at a value of the
   * parameter.
   */
  double rootDrop(double value) {
    double[] whole = new double[top.length];
    double[] wholeSlope = new double[top.length];
    Maximum.Smooth rest =
        (x, slope) -> {
          put(x, value, whole);
          double found = function.value(whole, wholeSlope);
          System.arraycopy(without(wholeSlope), 0, slope, 0, slope.length);
          return found;
        };
    Maximum.Top found = Maximum.newton(rest, others);
    if (Double.isFinite(found.value())) {
      others = found.at();
    }
    return Math.sqrt(2 * Math.max(0, height - found.value()));
  }

  /**
   * The value at which the root drop reaches a target, in the direction of the first step; infinite
   * with the sign of the step if it does not.
   */
  double end(double firstStep, double target) {
    double inside = 0;
    double insideDrop = 0;
    double outside = firstStep;
    double outsideDrop = rootDrop(top[index] + outside);
    double[] innerOthers = without(top);
    while (outsideDrop < target) {
      if (Math.abs(outside) > FARTHEST) {
        return firstStep * Double.POSITIVE_INFINITY;
      }
      innerOthers = others.clone();
      inside = outside;
      insideDrop = outsideDrop;
      outside *= 1.5;
      outsideDrop = rootDrop(top[index] + outside);
    }
    for (int round = 0; round < MOST_ROUNDS && Math.abs(outside - inside) > 1e-8; round++) {
      double part = (target - insideDrop) / (outsideDrop - insideDrop);
      double share = round % 3 == 2 ? 0.5 : Math.min(0.99, Math.max(0.01, part));
      double middle = inside + share * (outside - inside);
      others = innerOthers.clone();
      double drop = rootDrop(top[index] + middle);
      if (Math.abs(drop - target) < 1e-7) {
        return top[index] + middle;
      }
      if (drop < target) {
        inside = middle;
        insideDrop = drop;
        innerOthers = others.clone();
      } else {
        outside = middle;
        outsideDrop = drop;
      }
    }
    return top[index] + (inside + outside) / 2;
  }

  private void put(double[] x, double value, double[] whole) {
    for (int i = 0, j = 0; i < whole.length; i++) {
      whole[i] = i == index ? value : x[j++];
    }
  }

  private double[] without(double[] whole) {
    double[] rest = new double[whole.length - 1];
    for (int i = 0, j = 0; i < whole.length; i++) {
      if (i != index) {
        rest[j++] = whole[i];
      }
    }
    return rest;
  }
}
