package tepidarium.exchange;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tepidarium.germination.Entry;
import tepidarium.germination.FlatAct;

/** The table of journal entries; one row for each entry. */
final class EntryTable {
  static final List<String> HEADER =
      List.of(
          "entry",
          "sowing",
          "at",
          "kind",
          "group",
          "lot",
          "name",
          "groups",
          "container",
          "ungerminated",
          "germinated",
          "splitInto",
          "joinTo",
          "culled",
          "pottedOn",
          "rootLengthsCm",
          "alive",
          "recordedAt",
          "by",
          "remark",
          "corrects",
          "reason");

  private EntryTable() {}

  static List<@Nullable String> row(Entry entry) {
    FlatAct act = FlatAct.of(entry.act());
    return Arrays.asList(
        entry.id().toString(),
        String.valueOf(entry.sowing()),
        entry.at().toString(),
        act.kind(),
        act.group(),
        text(act.lot()),
        act.name(),
        act.groups(),
        act.container(),
        text(act.ungerminated()),
        text(act.germinated()),
        act.splitInto(),
        act.joinTo(),
        act.culled(),
        text(act.pottedOn()),
        act.rootLengthsCm(),
        text(act.alive()),
        entry.recordedAt().toString(),
        entry.by(),
        entry.remark(),
        text(entry.corrects()),
        entry.reason());
  }

  private static @Nullable String text(@Nullable Object value) {
    return value == null ? null : Objects.toString(value);
  }

  static Entry entry(Row row) {
    FlatAct act =
        new FlatAct(
            row.required("kind"),
            row.text("group"),
            row.whole("lot"),
            row.text("name"),
            row.text("groups"),
            row.text("container"),
            row.count("ungerminated"),
            row.count("germinated"),
            row.text("splitInto"),
            row.text("joinTo"),
            row.text("culled"),
            row.count("pottedOn"),
            row.text("rootLengthsCm"),
            row.count("alive"));
    row.required("entry");
    return new Entry(
        Objects.requireNonNull(row.uuid("entry")),
        row.number("sowing"),
        row.instant("at"),
        act.act(),
        row.instant("recordedAt"),
        row.text("by"),
        row.text("remark"),
        row.uuid("corrects"),
        row.text("reason"),
        null);
  }
}
