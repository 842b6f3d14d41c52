package phrasecensus.schema;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The source of the record of one table: a component a column, a builder that names each, and how a
 * row goes into cells and comes out of them, column by column, by place.
 */
final class RowSource {
  /** The builder marks in one {@code long} which columns were given. */
  private static final int MOST_COLUMNS = 64;

  /** Members that every row has, which no column may be named after. */
  private static final Set<String> TAKEN =
      Set.of("table", "into", "builder", "copy", "hashCode", "toString", "getClass", "notify");

  private final String packageName;
  private final String table;
  private final String row;
  private final boolean open;
  private final List<ColumnSchema> columns = new ArrayList<>();
  private final StringBuilder source = new StringBuilder();

  /**
   * @param json a schema file
   * @param vocabularies by name
   * @throws SchemaException if no row can be made of it
   */
  RowSource(String packageName, JsonNode json, Map<String, Vocabulary> vocabularies) {
    this.packageName = packageName;
    this.table = json.path("table").textValue();
    this.row = json.path("row").textValue();
    this.open = json.has("further_columns");
    JsonNode ofColumns = json.path("vocabularies");
    Set<String> members = new HashSet<>(TAKEN);
    if (open) {
      members.add("metadata");
    }
    for (JsonNode field : json.path("columns").path("fields")) {
      String name = field.path("name").textValue();
      ColumnSchema.Type type = ColumnSchema.Type.of(table, name, field.path("type"));
      Vocabulary vocabulary = null;
      if (ofColumns.has(name)) {
        vocabulary = vocabularies.get(ofColumns.path(name).textValue());
        if (vocabulary == null || type != ColumnSchema.Type.TEXT) {
          throw new SchemaException(
              table + "." + name + ": no such vocabulary, or the column is no text");
        }
      }
      String unit = field.path("metadata").path("unit").asText("");
      columns.add(
          new ColumnSchema(
              name,
              type,
              field.path("nullable").booleanValue(),
              field.path("metadata").path("description").textValue()
                  + (unit.isEmpty() ? "" : "; unit: " + unit),
              vocabulary));
      if (!members.add(JavaName.member(name))) {
        throw new SchemaException(table + "." + name + " is a member of every row, or there twice");
      }
    }
    ofColumns
        .fieldNames()
        .forEachRemaining(
            name -> {
              if (columns.stream().noneMatch(column -> column.name().equals(name))) {
                throw new SchemaException(table + " has a vocabulary for no column: " + name);
              }
            });
    if (columns.isEmpty() || columns.size() > MOST_COLUMNS) {
      throw new SchemaException(table + " has " + columns.size() + " columns; 1 to 64 can be");
    }
  }

  /** {@code NotesRow} for {@code notes}. */
  String className() {
    return JavaName.type(table) + "Row";
  }

  /** The whole source. */
  String text() {
    head();
    constructor();
    into();
    outOf();
    builder();
    source.append("}\n");
    return source.toString();
  }

  private void line(String text) {
    source.append(text).append('\n');
  }

  private boolean has(ColumnSchema.Type... types) {
    return columns.stream().anyMatch(column -> List.of(types).contains(column.type()));
  }

  private void head() {
    line("package " + packageName + ";\n");
    if (has(ColumnSchema.Type.DAY)) {
      line("import java.time.LocalDate;");
    }
    if (open) {
      line("import java.util.Collections;");
    }
    if (has(ColumnSchema.Type.TEXTS, ColumnSchema.Type.WHOLES)) {
      line("import java.util.List;");
    }
    if (open) {
      line("import java.util.SortedMap;");
      line("import java.util.TreeMap;");
    }
    line("import phrasecensus.tables.CellSink;");
    line("import phrasecensus.tables.CellSource;");
    if (!fractionStems().isEmpty()) {
      line("import phrasecensus.tables.FractionColumns;");
    }
    line("import phrasecensus.tables.Row;");
    line("import phrasecensus.tables.Table;");
    if (has(ColumnSchema.Type.TEXT)) {
      line("import phrasecensus.tables.TextColumn;");
    }
    if (columns.stream().anyMatch(column -> column.type() != ColumnSchema.Type.TEXT)) {
      line("import phrasecensus.tables.TypedColumn;");
    }
    line("");
    line("/**");
    line(" * A row of table {@code " + table + "}: " + JavaName.prose(row) + ".");
    line(" * Written by the build from {@code schemas/" + table + ".json}.");
    line(" *");
    for (ColumnSchema column : columns) {
      line(" * @param " + column.member() + " " + JavaName.prose(column.description()));
    }
    if (open) {
      line(" * @param metadata the columns that the study adds, with null where one is empty");
    }
    line(" */");
    line("public record " + className() + "(");
    for (int i = 0; i < columns.size(); i++) {
      line(
          "    "
              + columns.get(i).javaType()
              + " "
              + columns.get(i).member()
              + (i + 1 < columns.size() || open ? "," : ""));
    }
    if (open) {
      line("    SortedMap<String, String> metadata");
    }
    line("    ) implements Row {");
    line("  /** The table. */");
    line("  public static final Table<" + className() + "> TABLE =");
    line("      new Table<>(" + JavaName.text(table) + ", " + className() + "::outOf);\n");
    typedColumns();
  }

  /** A constant a column, and one for each two that make an exact number. */
  private void typedColumns() {
    for (ColumnSchema column : columns) {
      String type = column.vocabulary() == null ? column.type().boxed : column.javaType();
      line("  /** Column {@code " + column.name() + "}. */");
      line(
          "  public static final "
              + (column.type() == ColumnSchema.Type.TEXT ? "TextColumn<" : "TypedColumn<")
              + type
              + "> "
              + JavaName.constant(column.name())
              + " =");
      line(
          "      TABLE."
              + (column.vocabulary() == null
                  ? column.type().method + "(" + JavaName.text(column.name()) + ");\n"
                  : "word(" + JavaName.text(column.name()) + ", " + type + "::of);\n"));
    }
    for (String stem : fractionStems()) {
      line("  /** Columns {@code " + stem + "_num} and {@code " + stem + "_den}. */");
      line("  public static final FractionColumns " + JavaName.constant(stem) + " =");
      line(
          "      new FractionColumns("
              + JavaName.constant(stem + "_num")
              + ", "
              + JavaName.constant(stem + "_den")
              + ");\n");
    }
  }

  /** What is kept as {@code x_num} over {@code x_den}. */
  private List<String> fractionStems() {
    List<String> stems = new ArrayList<>();
    for (ColumnSchema column : columns) {
      if (column.name().endsWith("_num")) {
        String stem = column.name().substring(0, column.name().length() - "_num".length());
        if (columns.stream().anyMatch(other -> other.name().equals(stem + "_den"))) {
          stems.add(stem);
        }
      }
    }
    return stems;
  }

  private void constructor() {
    line("  /**");
    line(
        "   * @throws IllegalArgumentException if a value is missing that may not be, or a number"
            + " is");
    line("   *     not finite");
    line("   */");
    line("  public " + className() + " {");
    for (ColumnSchema column : columns) {
      String member = column.member();
      String name = JavaName.text(column.name());
      if (column.isReference() && !column.nullable()) {
        line("    if (" + member + " == null) {");
        line("      throw TABLE.missing(" + name + ");");
        line("    }");
      }
      if (column.type() == ColumnSchema.Type.NUMBER) {
        String given = column.nullable() ? member + " != null && " : "";
        line("    if (" + given + "!Double.isFinite(" + member + ")) {");
        line("      throw TABLE.notFinite(" + name + ", " + member + ");");
        line("    }");
      }
      if (column.type().isList()) {
        String copy = "List.copyOf(" + member + ")";
        line(
            "    "
                + member
                + " = "
                + (column.nullable() ? member + " == null ? null : " + copy : copy)
                + ";");
      }
    }
    if (open) {
      line("    metadata = Collections.unmodifiableSortedMap(new TreeMap<>(metadata));");
    }
    line("  }\n");
    line("  @Override");
    line("  public String table() {");
    line("    return TABLE.name();");
    line("  }\n");
  }

  private void into() {
    line("  @Override");
    line("  public void into(CellSink cells) {");
    for (ColumnSchema column : columns) {
      String method = column.vocabulary() != null ? "word" : column.type().method;
      line("    cells." + method + "(" + column.member() + ");");
    }
    if (open) {
      line("    metadata.values().forEach(cells::text);");
    }
    line("  }\n");
  }

  private void outOf() {
    line("  private static " + className() + " outOf(CellSource cells) {");
    line("    return new " + className() + "(");
    for (int i = 0; i < columns.size(); i++) {
      line("        " + value(columns.get(i), i) + (i + 1 < columns.size() || open ? "," : ""));
    }
    if (open) {
      line("        cells.further(" + columns.size() + ")");
    }
    line("        );");
    line("  }\n");
  }

  private static String value(ColumnSchema column, int place) {
    String value = "cells." + column.type().method + "(" + place + ")";
    if (column.vocabulary() != null) {
      return column.vocabulary().className() + ".of(" + value + ")";
    }
    return column.nullable() && column.type().isPrimitive()
        ? "cells.isMissing("
            + place
            + ") ? null : "
            + column.type().boxed
            + ".valueOf("
            + value
            + ")"
        : value;
  }

  private void builder() {
    line("  /** Starts a row: every column that may not be missing has to be set. */");
    line("  public static Builder builder() {");
    line("    return new Builder();");
    line("  }\n");
    line("  /** Starts a row with the values of this one. */");
    line("  public Builder copy() {");
    line("    Builder copy = new Builder();");
    for (ColumnSchema column : columns) {
      line("    copy." + column.member() + "(" + column.member() + ");");
    }
    if (open) {
      line("    copy.metadata(metadata);");
    }
    line("    return copy;");
    line("  }\n");
    line("  /** Names each value of a row. */");
    line("  public static final class Builder {");
    for (ColumnSchema column : columns) {
      line("    private " + column.javaType() + " " + column.member() + ";");
    }
    if (open) {
      line("    private SortedMap<String, String> metadata = Collections.emptySortedMap();");
    }
    line("    private long setPlaces;\n");
    line("    private Builder() {}");
    for (int i = 0; i < columns.size(); i++) {
      ColumnSchema column = columns.get(i);
      String member = column.member();
      line(
          "\n    /** Sets {@code "
              + column.name()
              + "}: "
              + JavaName.prose(column.description())
              + ". */");
      line("    public Builder " + member + "(" + column.javaType() + " " + member + ") {");
      line("      this." + member + " = " + member + ";");
      if (!column.isReference()) {
        line("      setPlaces |= 1L << " + i + ";");
      }
      line("      return this;");
      line("    }");
    }
    fractions();
    if (open) {
      line("\n    /** Sets the columns that the study adds, with null where one is empty. */");
      line("    public Builder metadata(SortedMap<String, String> metadata) {");
      line("      this.metadata = metadata;");
      line("      return this;");
      line("    }");
    }
    line("\n    /**");
    line("     * The row.");
    line("     *");
    line(
        "     * @throws IllegalArgumentException if a value is missing that may not be, or a"
            + " number");
    line("     *     is not finite");
    line("     */");
    line("    public " + className() + " build() {");
    for (int i = 0; i < columns.size(); i++) {
      if (!columns.get(i).isReference()) {
        line("      if ((setPlaces & 1L << " + i + ") == 0) {");
        line("        throw TABLE.missing(" + JavaName.text(columns.get(i).name()) + ");");
        line("      }");
      }
    }
    line("      return new " + className() + "(");
    for (int i = 0; i < columns.size(); i++) {
      line("          " + columns.get(i).member() + (i + 1 < columns.size() || open ? "," : ""));
    }
    if (open) {
      line("          metadata");
    }
    line("          );");
    line("    }");
    line("  }");
  }

  /** One method for {@code x_num} and {@code x_den}. */
  private void fractions() {
    for (String stem : fractionStems()) {
      line("\n    /** Sets {@code " + stem + "_num} over {@code " + stem + "_den}. */");
      line("    public Builder " + JavaName.member(stem) + "(long numerator, long denominator) {");
      line("      return " + JavaName.member(stem + "_num") + "(numerator)");
      line("          ." + JavaName.member(stem + "_den") + "(denominator);");
      line("    }");
    }
  }
}
