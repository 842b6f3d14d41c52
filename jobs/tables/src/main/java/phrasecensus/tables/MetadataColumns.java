package phrasecensus.tables;

import java.util.Collection;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** How columns of metadata files are called in table {@code solos}, and what they hold there. */
public final class MetadataColumns {
  /** Columns that reading fills and that may group norms under their own name. */
  private static final Set<String> GROUPING = Set.of("metre", "centre_mode", "part");

  private MetadataColumns() {}

  /**
   * The column's own name, or with the prefix {@code metadata_} where the table has one so called.
   */
  public static String inTable(String column) {
    return TableSchemas.named("solos").has(column) ? "metadata_" + column : column;
  }

  /** The column of table {@code solos} that a person means by a metadata column's name. */
  public static String inSolos(String column) {
    return Metadata.FILLING.contains(column) || GROUPING.contains(column)
        ? column
        : inTable(column);
  }

  /**
   * What the cells of every column are that metadata add to table {@code solos}: what the study
   * says, else what all cells of both roles have in common. A column of the table has one type, so
   * what is said of it for one role holds for both.
   *
   * @param declared by name of the column
   * @return by name of the column, those that fill columns of the table left out
   */
  public static Map<String, MetadataType> types(
      Map<String, MetadataType> declared, Collection<Metadata> metadata) {
    Map<String, MetadataType> types = new TreeMap<>();
    for (Metadata one : metadata) {
      for (String column : one.columns()) {
        if (!Metadata.FILLING.contains(column) && !types.containsKey(column)) {
          types.put(column, type(column, declared, metadata));
        }
      }
    }
    return types;
  }

  private static MetadataType type(
      String column, Map<String, MetadataType> declared, Collection<Metadata> metadata) {
    if (declared.containsKey(column)) {
      return declared.get(column);
    }
    if (column.equals(MetadataChoice.FOLDER)) {
      // Its name is a path, even where it looks like a year.
      return MetadataType.TEXT;
    }
    return MetadataType.in(
        metadata.stream().flatMap(one -> one.valuesOf(column).values().stream()).toList());
  }

  /** True for a column that metadata added to table {@code solos}. */
  public static boolean isAdded(Column column) {
    return !TableSchemas.named("solos").has(column.name());
  }

  /**
   * True for a column of table {@code solos} by whose words solos can be told apart: any text or
   * day, and whatever metadata added.
   */
  public static boolean isInWords(Column column) {
    return column.type() == ColumnType.STRING
        || column.type() == ColumnType.DATE
        || isAdded(column);
  }

  /** Table {@code solos} with the columns that metadata add, by their names in the metadata. */
  public static TableSchema solosSchema(Map<String, MetadataType> types) {
    Map<String, ColumnType> added = new TreeMap<>();
    types.forEach((column, type) -> added.put(inTable(column), type.columnType()));
    return TableSchemas.named("solos").withMetadata(added);
  }
}
