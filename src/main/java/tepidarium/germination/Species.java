package tepidarium.germination;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerSettings;
import tepidarium.heat.HeatRule;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * A species profile: usual figures for seeds of one species, each with its source. Unknown figures
 * are absent.
 *
 * @param id lower-case letters, digits and hyphens
 * @throws InvalidInput if a figure is invalid; the message names it
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

  private static void inOrder(Map<Trait, Figure> figures, Trait low, Trait high, boolean strict) {
    Figure lowFigure = figures.get(low);
    Figure highFigure = figures.get(high);
    if (lowFigure != null
        && highFigure != null
        && (lowFigure.value() > highFigure.value()
            || (strict && lowFigure.value() == highFigure.value()))) {
      throw new InvalidInput(
          high.key(),
          String.join(" ", show(highFigure), "must lie above", low.key(), show(lowFigure)),
          InputRule.HIGHER.with(highFigure.value(), lowFigure.value(), low.key(), high.unit()));
    }
  }

  private static String show(Figure figure) {
    return String.valueOf(figure.value());
  }

  /** Its base and ceiling temperature; the default base if the profile has none. */
  public HeatRule heatRule() {
    Double base = value(Trait.BASE);
    double baseC = base == null ? ContainerSettings.DEFAULT_BASE_C : base;
    Double ceiling = value(Trait.CEILING);
    return new HeatRule(baseC, ceiling != null && ceiling > baseC ? ceiling : null);
  }

  /** The value of a trait in its unit; null if it is not known. */
  public @Nullable Double value(Trait trait) {
    Figure figure = figures.get(trait);
    return figure == null ? null : figure.value();
  }
}
