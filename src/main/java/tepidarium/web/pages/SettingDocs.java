package tepidarium.web.pages;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.commonmark.ext.gfm.tables.TableCell;
import org.commonmark.ext.gfm.tables.TableRow;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.CustomNode;
import org.commonmark.node.Node;
import org.commonmark.node.Text;

/** Reads the default and the meaning of each setting from the tables of the documents. */
public final class SettingDocs {
  private static final List<String> DOCUMENTS = List.of("settings", "notices");
  private static final int CELLS = 3;

  private SettingDocs() {}

  /**
   * What the documents say of a setting.
   *
   * @param standard its default, in words
   * @param meaning its effect, in words
   */
  public record Doc(String standard, String meaning) {
    public static final Doc NONE = new Doc("", "");
  }

  /** Returns the documentation by the name of the setting. */
  public static Map<String, Doc> all() {
    Map<String, Doc> docs = new LinkedHashMap<>();
    for (String document : DOCUMENTS) {
      DocumentPages.parsed(PageFrame.resource("/docs/" + document + ".md")).accept(new Rows(docs));
    }
    return docs;
  }

  /** Collects the rows whose first cell names settings. */
  private static final class Rows extends AbstractVisitor {
    private final Map<String, Doc> docs;

    Rows(Map<String, Doc> docs) {
      this.docs = docs;
    }

    @Override
    public void visit(CustomNode node) {
      if (node instanceof TableRow row) {
        List<TableCell> cells = cells(row);
        if (cells.size() == CELLS) {
          Doc doc = new Doc(text(cells.get(1)), text(cells.get(2)));
          names(cells.get(0)).forEach(name -> docs.put(name, doc));
        }
      } else {
        visitChildren(node);
      }
    }

    private static List<TableCell> cells(TableRow row) {
      List<TableCell> cells = new ArrayList<>();
      for (Node node = row.getFirstChild(); node != null; node = node.getNext()) {
        if (node instanceof TableCell cell && !cell.isHeader()) {
          cells.add(cell);
        }
      }
      return cells;
    }

    private static List<String> names(TableCell cell) {
      List<String> names = new ArrayList<>();
      for (Node node = cell.getFirstChild(); node != null; node = node.getNext()) {
        if (node instanceof Code code) {
          names.add(code.getLiteral());
        }
      }
      return names;
    }

    private static String text(TableCell cell) {
      StringBuilder text = new StringBuilder();
      cell.accept(
          new AbstractVisitor() {
            @Override
            public void visit(Text node) {
              text.append(node.getLiteral());
            }

            @Override
            public void visit(Code node) {
              text.append(node.getLiteral());
            }
          });
      return text.toString();
    }
  }
}
