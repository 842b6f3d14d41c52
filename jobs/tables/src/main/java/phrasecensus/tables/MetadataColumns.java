package phrasecensus.tables;

import java.util.Collection;
import java.util.Set;
import java.util.TreeSet;

/** How columns of a metadata file are called in table {@code solos}. */
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

  /** Table {@code solos} with the further columns of the metadata files of both roles. */
  public static TableSchema solosSchema(Collection<String> corpus, Collection<String> students) {
    Set<String> further = new TreeSet<>();
    for (Collection<String> columns : java.util.List.of(corpus, students)) {
      for (String column : columns) {
        if (!Metadata.FILLING.contains(column)) {
          further.add(inTable(column));
        }
      }
    }
    return TableSchemas.named("solos").withMetadata(further);
  }
}
