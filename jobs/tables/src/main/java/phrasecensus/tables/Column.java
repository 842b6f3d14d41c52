package phrasecensus.tables;

/**
 * A column of a table.
 *
 * @param name snake_case
 * @param nullable whether a value may be missing
 * @param description what it means
 * @param unit unit of a number; null for anything else
 * @param example a value, as text
 */
public record Column(
    String name,
    ColumnType type,
    boolean nullable,
    String description,
    String unit,
    String example) {}
