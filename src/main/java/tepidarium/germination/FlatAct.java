package tepidarium.germination;

import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tepidarium.container.ContainerId;
import tepidarium.reading.InvalidInput;

/**
 * An act as one row of a table. A list is one cell, such as {@code 3-1 in jar-1: 20; 3-2 in bag-1:
 * 25}. Columns that do not belong to the kind of act are null.
 */
public record FlatAct(
    String kind,
    @Nullable String group,
    @Nullable Long lot,
    @Nullable String name,
    @Nullable String groups,
    @Nullable String container,
    @Nullable Integer ungerminated,
    @Nullable Integer germinated,
    @Nullable String splitInto,
    @Nullable String joinTo,
    @Nullable String culled,
    @Nullable Integer pottedOn,
    @Nullable String rootLengthsCm,
    @Nullable Integer alive) {

  private static final FlatAct WITHDRAWN = bare("withdrawn", null);

  private static FlatAct bare(String kind, @Nullable GroupId group) {
    return new FlatAct(
        kind, text(group), null, null, null, null, null, null, null, null, null, null, null, null);
  }

  /** The act as a row. */
  public static FlatAct of(Act act) {
    if (act instanceof Act.Sown sown) {
      return new FlatAct(
          sown.kind(),
          null,
          sown.lot(),
          sown.name(),
          joined(sown.parts(), p -> p.group() + " in " + p.container() + ": " + p.seeds()),
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null);
    }
    if (act instanceof Act.Moved moved) {
      return new FlatAct(
          moved.kind(),
          text(moved.group()),
          null,
          null,
          null,
          moved.to().value(),
          moved.ungerminated(),
          moved.germinated(),
          text(moved.splitInto()),
          text(moved.joinTo()),
          null,
          null,
          null,
          null);
    }
    if (act instanceof Act.Checked check) {
      return new FlatAct(
          check.kind(),
          text(check.group()),
          null,
          null,
          null,
          null,
          null,
          check.germinated(),
          null,
          null,
          joined(check.culled(), Culled::text),
          check.pottedOn(),
          joined(check.rootLengthsCm(), String::valueOf),
          null);
    }
    if (act instanceof Act.Survival survival) {
      return new FlatAct(
          survival.kind(),
          text(survival.group()),
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          survival.alive());
    }
    if (act instanceof Act.Named named) {
      return new FlatAct(
          named.kind(),
          text(named.group()),
          null,
          named.name(),
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null,
          null);
    }
    return WITHDRAWN;
  }

  private static @Nullable String text(@Nullable GroupId group) {
    return group == null ? null : group.toString();
  }

  private static <T> @Nullable String joined(List<T> list, Function<T, String> text) {
    return list.isEmpty() ? null : list.stream().map(text).collect(Collectors.joining("; "));
  }

  private static <T> List<T> split(@Nullable String cell, Function<String, T> read) {
    return cell == null
        ? List.of()
        : Arrays.stream(cell.split(";", -1)).map(String::strip).map(read).toList();
  }

  /**
   * The act of this row.
   *
   * @throws InvalidInput if a cell is missing or invalid; the message names the cell
   */
  public Act act() {
    return switch (kind) {
      case "sown" -> new Act.Sown(needed("lot", lot), name, split(groups, FlatAct::part));
      case "moved" ->
          new Act.Moved(
              groupId(),
              new ContainerId(needed("container", container)),
              ungerminated,
              germinated,
              splitInto == null ? null : GroupId.parse(splitInto),
              joinTo == null ? null : GroupId.parse(joinTo));
      case "checked" ->
          new Act.Checked(
              groupId(),
              germinated == null ? 0 : germinated,
              split(culled, Culled::parse),
              pottedOn == null ? 0 : pottedOn,
              split(rootLengthsCm, FlatAct::centimetres));
      case "survival" -> new Act.Survival(groupId(), needed("alive", alive));
      case "named" -> new Act.Named(group == null ? null : GroupId.parse(group), name);
      case "withdrawn" -> new Act.Withdrawn();
      default ->
          throw new InvalidInput(
              "kind",
              "must be sown, moved, checked, survival, named or withdrawn, not \"" + kind + '"');
    };
  }

  private GroupId groupId() {
    return GroupId.parse(needed("group", group));
  }

  private <T> T needed(String cell, @Nullable T value) {
    if (value == null) {
      throw new InvalidInput(cell + " is missing in an entry of kind " + kind);
    }
    return value;
  }

  private static Act.Part part(String text) {
    String[] pieces = text.split(" in |:", -1);
    if (pieces.length != 3) {
      throw new InvalidInput("groups", "must read like \"3-1 in jar-1: 20\", not \"" + text + '"');
    }
    return new Act.Part(
        GroupId.parse(pieces[0].strip()),
        new ContainerId(pieces[1].strip()),
        Counts.parse("groups", pieces[2]));
  }

  private static double centimetres(String text) {
    try {
      return Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw new InvalidInput("rootLengthsCm must be numbers, not \"" + text + '"', e);
    }
  }
}
