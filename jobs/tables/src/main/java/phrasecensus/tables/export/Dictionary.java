package phrasecensus.tables.export;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.tables.Column;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableSchema;

/**
 * The data dictionary of an export: what every column of every table means, and every statistic.
 * Made from the schemas, as a page for people in HTML and in Markdown.
 */
public final class Dictionary {
  private static final String TITLE = "Data dictionary";

  private Dictionary() {}

  /**
   * The dictionary in Markdown.
   *
   * @param schemas the tables of the export, columns of metadata included
   */
  public static String markdown(List<TableSchema> schemas, StatisticsCatalogue catalogue) {
    Page page = Page.markdown();
    fill(page, schemas, catalogue);
    return page.text();
  }

  /** The dictionary as a page of HTML that needs no other file. */
  public static String html(List<TableSchema> schemas, StatisticsCatalogue catalogue) {
    Page page = Page.html(TITLE);
    fill(page, schemas, catalogue);
    return page.text();
  }

  private static void fill(Page page, List<TableSchema> schemas, StatisticsCatalogue catalogue) {
    page.heading(1, TITLE, "top");
    page.paragraph(
        "Every table stands in `csv/` and, with the same rows in the same order, in `parquet/`."
            + " Times are exact: `_num` over `_den`, in quarter notes from the start of the solo as"
            + " written (its first bar or pickup starts at 0). The CSV files, and only they, have"
            + " the quotient beside each pair, rounded to a decimal.");
    page.paragraph(
        "The CSV files are UTF-8 without byte order mark, separated by commas, quoted after RFC"
            + " 4180, with lines ended by CR LF. A missing value is an empty field, an empty text"
            + " is two quotation marks. `TRUE` and `FALSE` are yes and no. A list is a JSON array."
            + " A text that a spreadsheet could take for a formula (it begins with = + - @, a tab"
            + " or a line break, spaces passed over) has an apostrophe in front, and so has a text"
            + " that begins with one: to have all texts as they were, take the first character off"
            + " those that begin with an apostrophe. The Parquet files have them as they were.");
    page.heading(2, "Tables", "tables");
    List<List<String>> overview = new ArrayList<>();
    for (TableSchema schema : schemas) {
      overview.add(
          List.of(
              schema.table(),
              schema.row(),
              code(schema.key()),
              Integer.toString(schema.version())));
    }
    page.table("The tables", List.of("table", "one row", "key", "version"), overview, true);
    for (TableSchema schema : schemas) {
      table(page, schema);
    }
    statistics(page, catalogue);
  }

  private static void table(Page page, TableSchema schema) {
    page.heading(2, schema.table(), "table-" + schema.table());
    page.paragraph("One row: " + schema.row() + ". Key: " + code(schema.key()) + ".");
    for (TableSchema.Reference reference : schema.references()) {
      page.paragraph(
          code(reference.columns())
              + " "
              + (reference.columns().size() == 1 ? "names" : "name")
              + " a row of `"
              + reference.table()
              + "` by its "
              + code(reference.key())
              + ".");
    }
    List<List<String>> rows = new ArrayList<>();
    for (Column column : CsvTable.columns(schema)) {
      rows.add(
          List.of(
              column.name(),
              type(column.type()) + (column.nullable() ? ", may be missing" : ""),
              column.unit() == null ? "" : column.unit(),
              column.description(),
              column.example()));
    }
    page.table(
        "Columns of " + schema.table(),
        List.of("column", "type", "unit", "meaning", "example"),
        rows,
        true);
  }

  private static void statistics(Page page, StatisticsCatalogue catalogue) {
    page.heading(2, "The statistics", "statistics");
    page.paragraph("Catalogue version " + catalogue.version() + ".");
    List<List<String>> rows = new ArrayList<>();
    for (StatisticDefinition each : catalogue.all()) {
      rows.add(
          List.of(
              each.key(),
              each.name(),
              each.meaning(),
              each.unit(),
              each.formula(),
              each.aggregation(),
              each.undefined(),
              each.source()));
    }
    page.table(
        "The statistics",
        List.of(
            "key", "name", "meaning", "unit", "formula", "a solo's value", "undefined", "source"),
        rows,
        true);
  }

  private static String code(List<String> names) {
    return "`" + String.join("`, `", names) + "`";
  }

  private static String type(ColumnType type) {
    return switch (type) {
      case STRING -> "text";
      case INTEGER, LONG -> "whole number";
      case DOUBLE -> "decimal";
      case BOOLEAN -> "yes or no";
      case DATE -> "date";
      case STRING_ARRAY -> "list of texts";
      case INTEGER_ARRAY -> "list of whole numbers";
    };
  }
}
