package phrasecensus.tables;

import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * What people know about the solos of a folder beyond the scores: a CSV file with one row a solo.
 * Columns {@code title}, {@code performer}, {@code instrument}, {@code student} and {@code date}
 * have a meaning of their own; every other column is kept under its name and may group norms.
 */
public final class Metadata implements Serializable {
  private static final long serialVersionUID = 1L;

  /** Columns of table {@code solos} that a metadata file may fill. */
  public static final List<String> FILLING =
      List.of("title", "performer", "instrument", "student", "date");

  /** The most characters that a cell may have: ten pages of text. */
  static final int LONGEST_CELL = 20_000;

  private static final int LONGEST_HEADER = 1000;

  /** A folder without metadata. */
  public static final Metadata NONE = new Metadata(List.of(), new TreeMap<>(), List.of(), Map.of());

  private final List<String> columns;
  private final TreeMap<String, TreeMap<String, String>> rows;
  private final List<String> remarks;

  /** Where in the file the row of a key stands, for messages; tasks have no use for it. */
  private final transient Map<String, Long> places;

  private Metadata(
      List<String> columns,
      TreeMap<String, TreeMap<String, String>> rows,
      List<String> remarks,
      Map<String, Long> places) {
    this.columns = List.copyOf(columns);
    this.rows = rows;
    this.remarks = List.copyOf(remarks);
    this.places = places;
  }

  /**
   * A cell that is not of its column's type.
   *
   * @param file key of its row
   * @param row where it stands in the metadata file, 1 for the names of the columns; 0 for what the
   *     name of a score says
   * @param column its name in the study
   * @param cell as written
   */
  public record Misfit(String file, long row, String column, String cell) {}

  /**
   * Metadata whose cells are all of their columns' types.
   *
   * @param misfits what was left out for that, by column, then in order of the file
   */
  public record Typed(Metadata metadata, List<Misfit> misfits) {
    public Typed {
      misfits = List.copyOf(misfits);
    }
  }

  /** Reads a CSV file whose form is guessed; see the other {@code read}. */
  public static Metadata read(String name, byte[] bytes, String key, Collection<String> files) {
    return read(name, bytes, new MetadataDefinition("", key), files);
  }

  /**
   * Reads a CSV file: comma, semicolon or tab between the columns, UTF-8 with or without byte order
   * mark or Windows-1252, as the definition says or as it looks.
   *
   * @param name how messages call the file
   * @param definition its key, names of columns, delimiter and encoding
   * @param files paths of the scores
   * @throws InputException for a missing column, a key that stands twice, a cell too many, a date
   *     that is not in ISO form; with the row
   */
  public static Metadata read(
      String name, byte[] bytes, MetadataDefinition definition, Collection<String> files) {
    List<String> remarks = new ArrayList<>();
    DelimitedText text =
        DelimitedText.of(
            "metadata file " + name, bytes, definition.encoding(), definition.delimiter(), remarks);
    String key = definition.key();
    try (CSVParser parser = text.parser()) {
      List<String> headers = parser.getHeaderNames();
      if (headers.isEmpty()) {
        throw new InputException(
            "Cannot use the metadata file "
                + name
                + ": it is empty. Give it a row with the names of its columns, or delete it.");
      }
      checkHeaders(name, headers);
      Map<String, String> names = names(name, headers, definition.columns());
      List<CSVRecord> records = records(name, parser);
      String keyColumn = key.isEmpty() ? keyColumn(headers, records, files) : key;
      if (!headers.contains(keyColumn)) {
        throw new InputException(
            "Cannot use the metadata file "
                + name
                + ": it has no column "
                + (key.isEmpty() ? "" : "'" + key + "' ")
                + "that names the scores. Its columns: "
                + String.join(", ", headers)
                + ".");
      }
      if (key.isEmpty() && !keyColumn.equals("file")) {
        remarks.add("Metadata from " + name + "; its column '" + keyColumn + "' names the scores.");
      }
      List<String> columns = new ArrayList<>();
      for (String header : headers) {
        if (!header.isBlank() && !header.equals(keyColumn)) {
          columns.add(names.get(header));
        }
      }
      TreeMap<String, TreeMap<String, String>> rows = new TreeMap<>();
      Map<String, Long> places = new HashMap<>();
      MeantFiles meant = new MeantFiles(files);
      for (CSVRecord record : records) {
        checkWidth(name, record, headers.size());
        checkCells(name, record, headers.size());
        String file = record.isSet(keyColumn) ? meant.by(record.get(keyColumn)) : "";
        if (file.isEmpty()) {
          continue;
        }
        TreeMap<String, String> row = new TreeMap<>();
        for (String header : headers) {
          if (!header.isBlank() && !header.equals(keyColumn) && record.isSet(header)) {
            String value = record.get(header);
            if (!value.isEmpty()) {
              row.put(names.get(header), value);
            }
          }
        }
        checkDate(name, record, row.get("date"));
        places.put(file, record.getRecordNumber() + 1);
        if (rows.put(file, row) != null) {
          throw new InputException(
              "Cannot use the metadata file "
                  + name
                  + ": '"
                  + file
                  + "' stands in it more than once, again in row "
                  + (record.getRecordNumber() + 1)
                  + ". Keep one row a file.");
        }
      }
      return new Metadata(columns, rows, remarks, places);
    } catch (IOException e) {
      throw misquoted(name, 1, e);
    }
  }

  private static List<CSVRecord> records(String name, CSVParser parser) {
    try {
      return parser.getRecords();
    } catch (UncheckedIOException e) {
      throw misquoted(name, parser.getRecordNumber() + 2, e);
    }
  }

  /** The text is in memory, so quotation marks are the only thing that can break it. */
  private static InputException misquoted(String name, long row, Exception cause) {
    return new InputException(
        "Cannot read the metadata file "
            + name
            + ": a quotation mark in row "
            + row
            + " is not closed or out of place. Inside quoted text, write it twice.",
        cause);
  }

  /** The name of every column by its header, those of the study's own choosing first. */
  private static Map<String, String> names(
      String name, List<String> headers, Map<String, String> columns) {
    Map<String, String> chosen = new HashMap<>();
    for (Map.Entry<String, String> column : columns.entrySet()) {
      String header = column.getValue();
      if (!headers.contains(header)) {
        throw new InputException(
            "Cannot use the metadata file "
                + name
                + ": it has no column '"
                + header
                + "', which the study calls '"
                + column.getKey()
                + "'. Its columns: "
                + String.join(", ", headers)
                + ".");
      }
      chosen.put(header, columnName(column.getKey()));
    }
    Map<String, String> names = new HashMap<>();
    Set<String> seen = new HashSet<>();
    for (String header : headers) {
      if (!header.isBlank()) {
        String columnName = chosen.getOrDefault(header, columnName(header));
        if (!seen.add(columnName)) {
          throw new InputException(
              "Cannot use the metadata file "
                  + name
                  + ": it has more than one column '"
                  + columnName
                  + "'. Rename or delete one.");
        }
        names.put(header, columnName);
      }
    }
    return names;
  }

  private static String keyColumn(
      List<String> headers, List<CSVRecord> records, Collection<String> files) {
    if (headers.contains("file")) {
      return "file";
    }
    Set<String> names = new HashSet<>();
    for (String file : files) {
      names.add(file);
      names.add(withoutExtension(file));
    }
    for (String header : headers) {
      if (!header.isBlank()
          && records.stream()
              .anyMatch(record -> record.isSet(header) && names.contains(record.get(header)))) {
        return header;
      }
    }
    return "file";
  }

  /** A cell too many is a comma that nobody quoted: every cell after it stands a column too far. */
  private static void checkWidth(String name, CSVRecord record, int columns) {
    for (int i = columns; i < record.size(); i++) {
      if (!record.get(i).isEmpty()) {
        throw new InputException(
            "Cannot use the metadata file "
                + name
                + ": row "
                + (record.getRecordNumber() + 1)
                + " has more cells than there are columns, "
                + columns
                + ". Put text that holds a delimiter between quotation marks.");
      }
    }
  }

  private static void checkHeaders(String name, List<String> headers) {
    for (String header : headers) {
      if (header.length() > LONGEST_HEADER) {
        throw new InputException(
            "Cannot use the metadata file "
                + name
                + ": a column's name in row 1 has "
                + header.length()
                + " characters; the limit is "
                + LONGEST_HEADER
                + ". The first row holds the names of the columns.");
      }
    }
  }

  private static void checkCells(String name, CSVRecord record, int columns) {
    for (int i = 0; i < Math.min(columns, record.size()); i++) {
      if (record.get(i).length() > LONGEST_CELL) {
        throw new InputException(
            "Cannot use the metadata file "
                + name
                + ": a cell of row "
                + (record.getRecordNumber() + 1)
                + " has "
                + record.get(i).length()
                + " characters; the limit is "
                + LONGEST_CELL
                + ". Look for a quotation mark that is not closed.");
      }
    }
  }

  private static void checkDate(String name, CSVRecord record, String date) {
    if (date != null) {
      try {
        LocalDate.parse(date);
      } catch (DateTimeParseException e) {
        throw new InputException(
            "Cannot use the metadata file "
                + name
                + ": row "
                + (record.getRecordNumber() + 1)
                + " has the date '"
                + date
                + "'. Write dates as 2026-03-14.",
            e);
      }
    }
  }

  /** A header as a column name: lower case, words joined by underscores. */
  static String columnName(String header) {
    String name = header.strip().toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "_");
    return name.replaceAll("^_+|_+$", "");
  }

  /**
   * The row of a score.
   *
   * @param file path in the folder; a row may name it with or without its extension
   * @return column to value without empty values; empty when the file has no row
   */
  public Map<String, String> of(String file) {
    Map<String, String> row = rows.get(file);
    if (row == null) {
      row = rows.get(withoutExtension(file));
    }
    return row == null ? Map.of() : java.util.Collections.unmodifiableMap(row);
  }

  /** The values of a column by the key of their rows, in order; rows without one are left out. */
  public Map<String, String> valuesOf(String column) {
    Map<String, String> values = new TreeMap<>();
    rows.forEach(
        (key, row) -> {
          if (row.containsKey(column)) {
            values.put(key, row.get(column));
          }
        });
    return values;
  }

  /**
   * The same metadata with a further column.
   *
   * @param values by the key of the row; rows without one have none
   */
  public Metadata with(String column, Map<String, String> values) {
    List<String> further = new ArrayList<>(columns);
    if (!further.contains(column)) {
      further.add(column);
    }
    TreeMap<String, TreeMap<String, String>> filled = new TreeMap<>();
    rows.forEach((key, row) -> filled.put(key, new TreeMap<>(row)));
    values.forEach(
        (key, value) -> filled.computeIfAbsent(key, name -> new TreeMap<>()).put(column, value));
    return new Metadata(further, filled, remarks, places);
  }

  /**
   * The same metadata with what is known of files from elsewhere; what stands in it wins.
   *
   * @param known file to column to value
   */
  public Metadata completedBy(Map<String, Map<String, String>> known) {
    List<String> further = new ArrayList<>(columns);
    TreeMap<String, TreeMap<String, String>> filled = new TreeMap<>();
    rows.forEach((key, row) -> filled.put(key, new TreeMap<>(row)));
    known.forEach(
        (file, values) -> {
          if (!values.isEmpty()) {
            String key =
                !rows.containsKey(file) && rows.containsKey(withoutExtension(file))
                    ? withoutExtension(file)
                    : file;
            TreeMap<String, String> row = filled.computeIfAbsent(key, name -> new TreeMap<>());
            values.forEach(row::putIfAbsent);
            values.keySet().stream().filter(name -> !further.contains(name)).forEach(further::add);
          }
        });
    return new Metadata(further, filled, remarks, places);
  }

  /** The same metadata without the cells that are not of the type of their column. */
  public Typed typed(Map<String, MetadataType> types) {
    List<Misfit> misfits = new ArrayList<>();
    TreeMap<String, TreeMap<String, String>> fitting = new TreeMap<>();
    rows.forEach(
        (file, row) -> {
          TreeMap<String, String> kept = new TreeMap<>();
          row.forEach(
              (column, cell) -> {
                if (types.getOrDefault(column, MetadataType.TEXT).value(cell) != null) {
                  kept.put(column, cell);
                } else if (!cell.isBlank()) {
                  misfits.add(new Misfit(file, places.getOrDefault(file, 0L), column, cell));
                }
              });
          fitting.put(file, kept);
        });
    misfits.sort(
        Comparator.comparing(Misfit::column)
            .thenComparing(Misfit::row)
            .thenComparing(Misfit::file));
    return new Typed(new Metadata(columns, fitting, remarks, places), misfits);
  }

  static String withoutExtension(String file) {
    return file.replaceAll("\\.(musicxml|xml|mxl)$", "");
  }

  /** Column names in the order of the file, without the key. */
  public List<String> columns() {
    return columns;
  }

  /** Things worth telling about how the file was read. */
  public List<String> remarks() {
    return remarks;
  }

  /** How many rows it has. */
  public int size() {
    return rows.size();
  }

  /** Keys of rows that belong to none of the given files. */
  public List<String> rowsWithoutFile(Collection<String> files) {
    TreeMap<String, TreeMap<String, String>> left = new TreeMap<>(rows);
    for (String file : files) {
      if (left.remove(file) == null) {
        left.remove(withoutExtension(file));
      }
    }
    return List.copyOf(left.keySet());
  }

  /** Those of the given files that no row belongs to, in their order. */
  public List<String> filesWithoutRow(Collection<String> files) {
    return files.stream()
        .filter(file -> !rows.containsKey(file) && !rows.containsKey(withoutExtension(file)))
        .toList();
  }
}
