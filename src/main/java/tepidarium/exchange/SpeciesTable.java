package tepidarium.exchange;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Figure;
import tepidarium.germination.Species;
import tepidarium.germination.Trait;

/** The table of species profiles; one row for each species, with each figure and its source. */
final class SpeciesTable {
  static final List<String> HEADER = header();

  private SpeciesTable() {}

  private static List<String> header() {
    List<String> header = new ArrayList<>(List.of("species", "name"));
    for (Trait trait : Trait.values()) {
      header.add(trait.key());
      header.add(source(trait));
    }
    return List.copyOf(header);
  }

  private static String source(Trait trait) {
    return trait.key() + "Source";
  }

  static List<@Nullable String> row(Species species) {
    List<@Nullable String> row = new ArrayList<>(List.of(species.id(), species.name()));
    for (Trait trait : Trait.values()) {
      Figure figure = species.figures().get(trait);
      row.add(figure == null ? null : String.valueOf(figure.value()));
      row.add(figure == null ? null : figure.source());
    }
    return row;
  }

  static Species species(Row row) {
    Map<Trait, Figure> figures = new EnumMap<>(Trait.class);
    for (Trait trait : Trait.values()) {
      Double value = row.decimal(trait.key());
      if (value != null) {
        figures.put(trait, new Figure(value, row.required(source(trait))));
      }
    }
    return new Species(row.required("species"), row.required("name"), figures);
  }
}
