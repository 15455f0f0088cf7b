package tepidarium.container;

import org.jspecify.annotations.Nullable;
import tepidarium.reading.Checks;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/**
 * The settings of a container that the grower can change.
 *
 * @param heatSource name of the heat source, as the grower entered it; null for none
 * @param room the room or bench in which it stands, as the grower entered it; null for none
 * @param baseC base temperature, °C
 * @param ceilingC ceiling temperature, °C, or null for none
 * @throws InvalidInput if a setting is invalid; names the setting
 */
public record ContainerSettings(
    String name,
    ContainerKind kind,
    @Nullable String heatSource,
    @Nullable String room,
    double baseC,
    @Nullable Double ceilingC,
    Band band) {
  /** Default base temperature, °C: many tropical species have 10 to 17 °C (value from memory). */
  public static final double DEFAULT_BASE_C = 15;

  public ContainerSettings {
    name = Checks.text("name", name, 60);
    heatSource =
        heatSource == null || heatSource.isBlank()
            ? null
            : Checks.text("heatSource", heatSource, 60);
    room = room == null || room.isBlank() ? null : Checks.text("room", room, 64);
    Checks.within("base", baseC, -20, 60, "°C");
    if (ceilingC != null) {
      Checks.within("ceiling", ceilingC, -20, 80, "°C");
      if (ceilingC <= baseC) {
        throw new InvalidInput(
            "ceiling",
            ceilingC + " °C must lie above base " + baseC + " °C",
            InputRule.HIGHER.with(ceilingC, baseC, "base", "°C"));
      }
    }
  }

  /** The settings of a container without a room. */
  public ContainerSettings(
      String name,
      ContainerKind kind,
      @Nullable String heatSource,
      double baseC,
      @Nullable Double ceilingC,
      Band band) {
    this(name, kind, heatSource, null, baseC, ceilingC, band);
  }
}
