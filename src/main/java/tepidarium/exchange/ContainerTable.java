package tepidarium.exchange;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tepidarium.container.Band;
import tepidarium.container.Container;
import tepidarium.container.ContainerId;
import tepidarium.container.ContainerKind;
import tepidarium.container.ContainerSettings;
import tepidarium.reading.InputRule;
import tepidarium.reading.InvalidInput;

/** The table of containers; one row for each container. */
final class ContainerTable {
  static final List<String> HEADER =
      List.of(
          "container",
          "name",
          "kind",
          "heatSource",
          "room",
          "base",
          "ceiling",
          "temperatureLow",
          "temperatureHigh",
          "lightHigh",
          "humidityLow",
          "createdAt");

  private ContainerTable() {}

  static List<@Nullable String> row(Container container) {
    ContainerSettings settings = container.settings();
    Band band = container.band();
    return Arrays.asList(
        container.id().value(),
        container.name(),
        settings.kind().name().toLowerCase(Locale.ROOT),
        settings.heatSource(),
        settings.room(),
        String.valueOf(settings.baseC()),
        Row.cell(settings.ceilingC()),
        String.valueOf(band.temperatureLowC()),
        String.valueOf(band.temperatureHighC()),
        String.valueOf(band.lightHighLux()),
        String.valueOf(band.humidityLowPercent()),
        container.createdAt().toString());
  }

  static Container container(Row row) {
    ContainerId id = new ContainerId(row.required("container"));
    if (id.equals(ContainerId.ROOM)) {
      throw new InvalidInput("container", "must not be \"room\": that is the surroundings");
    }
    Band band =
        new Band(
            row.requiredDecimal("temperatureLow"),
            row.requiredDecimal("temperatureHigh"),
            row.requiredDecimal("lightHigh"),
            row.requiredDecimal("humidityLow"));
    return new Container(
        id,
        new ContainerSettings(
            row.required("name"),
            kind(row.required("kind")),
            row.text("heatSource"),
            row.text("room"),
            row.requiredDecimal("base"),
            row.decimal("ceiling"),
            band),
        row.instant("createdAt"));
  }

  private static ContainerKind kind(String text) {
    return Arrays.stream(ContainerKind.values())
        .filter(kind -> kind.name().toLowerCase(Locale.ROOT).equals(text))
        .findFirst()
        .orElseThrow(
            () ->
                new InvalidInput(
                    "kind",
                    "must be bag, box, jar or tray, not \"" + text + '"',
                    InputRule.CHOICE.with(text, List.of("bag", "box", "jar", "tray"))));
  }
}
