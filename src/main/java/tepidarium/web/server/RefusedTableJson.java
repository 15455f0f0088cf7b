package tepidarium.web.server;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tepidarium.reading.BrokenRule;
import tepidarium.reading.RefusedTable;

/** The lines of a table that an import refuses, in problem details. */
record RefusedTableJson(String file, List<Line> lines, int more) {

  @JsonInclude(JsonInclude.Include.NON_NULL)
  record Line(
      long line,
      String detail,
      @Nullable String field,
      @Nullable String rule,
      @Nullable Map<String, Object> figures) {

    static Line of(RefusedTable.Line line) {
      BrokenRule broken = line.broken();
      return new Line(
          line.number(),
          line.words(),
          line.field(),
          broken == null ? null : broken.rule().key(),
          broken == null ? null : broken.figures());
    }
  }

  static RefusedTableJson of(RefusedTable table) {
    return new RefusedTableJson(
        table.file(), table.lines().stream().map(Line::of).toList(), table.more());
  }
}
