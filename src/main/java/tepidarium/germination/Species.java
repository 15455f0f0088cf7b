package tepidarium.germination;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerSettings;
import tepidarium.heat.HeatRule;
import tepidarium.reading.InvalidInput;

/**
 * A species profile: what is usual for seed of one species. Each figure has its source; one that is
 * not known is absent.
 *
 * @param id lower-case letters, digits and hyphens
 * @throws InvalidInput naming the figure that makes no sense
 */
public record Species(String id, String name, Map<Trait, Figure> figures) {
  public Species {
    id = new ContainerId(id).value();
    name = Require.text("name", name, 60);
    figures.forEach((trait, figure) -> trait.check(figure.value()));
    Map<Trait, Figure> sorted = new EnumMap<>(Trait.class);
    sorted.putAll(figures);
    figures = Collections.unmodifiableMap(sorted);
    inOrder(figures, Trait.BASE, Trait.OPTIMUM, true);
    inOrder(figures, Trait.OPTIMUM, Trait.CEILING, false);
    inOrder(figures, Trait.BASE, Trait.CEILING, true);
    inOrder(figures, Trait.FIRST_DAYS, Trait.GIVE_UP_DAYS, false);
  }

  private static void inOrder(Map<Trait, Figure> figures, Trait low, Trait high, boolean apart) {
    Figure below = figures.get(low);
    Figure above = figures.get(high);
    if (below != null
        && above != null
        && (below.value() > above.value() || (apart && below.value() == above.value()))) {
      throw new InvalidInput(
          String.join(" ", high.key(), show(above), "must lie above", low.key(), show(below)));
    }
  }

  private static String show(Figure figure) {
    return String.valueOf(figure.value());
  }

  /** Its base and ceiling; the usual base where its profile has none. */
  public HeatRule heatRule() {
    Double base = value(Trait.BASE);
    double baseC = base == null ? ContainerSettings.DEFAULT_BASE_C : base;
    Double ceiling = value(Trait.CEILING);
    return new HeatRule(baseC, ceiling != null && ceiling > baseC ? ceiling : null);
  }

  /** The value of a trait in its unit; null where the profile does not say. */
  public @Nullable Double value(Trait trait) {
    Figure figure = figures.get(trait);
    return figure == null ? null : figure.value();
  }
}
