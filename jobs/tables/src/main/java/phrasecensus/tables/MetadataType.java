package phrasecensus.tables;

import com.fasterxml.jackson.annotation.JsonValue;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/** What the cells of a metadata column are. */
public enum MetadataType {
  /** Whole numbers of up to 18 digits. */
  INTEGER(ColumnType.LONG, "a whole number such as 1958"),
  /** Numbers with a decimal point. */
  NUMBER(ColumnType.DOUBLE, "a number such as 0.75"),
  /** Days. */
  DATE(ColumnType.DATE, "a date such as 2026-03-14"),
  TEXT(ColumnType.STRING, "any text");

  private static final Pattern WHOLE = Pattern.compile("[+-]?\\d{1,18}");
  private static final Pattern DECIMAL =
      Pattern.compile("[+-]?\\d{1,15}(\\.\\d{1,15})?([eE][+-]?\\d{1,2})?");
  private static final Pattern DAY = Pattern.compile("\\d{4}-\\d{2}-\\d{2}");

  /** What nobody would write before a number, but in a code or a catalogue number. */
  private static final Pattern OF_CODE = Pattern.compile("\\+.*|-?0\\d.*");

  private final ColumnType columnType;
  private final String inWords;

  MetadataType(ColumnType columnType, String inWords) {
    this.columnType = columnType;
    this.inWords = inWords;
  }

  /** As a study file and a manifest write it. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The words of all types. */
  public static List<String> words() {
    return Arrays.stream(values()).map(MetadataType::word).toList();
  }

  /** The type of a word; null for another word. */
  public static MetadataType named(String word) {
    return words().contains(word) ? valueOf(word.toUpperCase(Locale.ROOT)) : null;
  }

  /**
   * The type whose cells go into columns of a type.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static MetadataType of(ColumnType columnType) {
    return Arrays.stream(values())
        .filter(type -> type.columnType == columnType)
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("Invalid type: " + columnType));
  }

  /**
   * The type that all cells of a column have; {@link #TEXT} where they have none in common, or
   * where there is no cell. Leading zeros are those of a code, which is no number.
   */
  static MetadataType in(Collection<String> cells) {
    List<String> written = cells.stream().filter(cell -> !cell.isBlank()).toList();
    if (written.isEmpty()) {
      return TEXT;
    }
    boolean ofCodes = written.stream().anyMatch(cell -> OF_CODE.matcher(cell.strip()).matches());
    for (MetadataType type : List.of(INTEGER, NUMBER, DATE)) {
      if (!(ofCodes && type.columnType.isNumber())
          && written.stream().allMatch(cell -> type.value(cell) != null)) {
        return type;
      }
    }
    return TEXT;
  }

  /** The type of the column in table {@code solos}. */
  public ColumnType columnType() {
    return columnType;
  }

  /** What a cell has to be, for messages. */
  public String inWords() {
    return inWords;
  }

  /** The value of a cell, as a column takes it; null for a cell that is not of this type. */
  public Object value(String cell) {
    String plain = cell.strip();
    return switch (this) {
      case INTEGER -> WHOLE.matcher(plain).matches() ? Long.valueOf(plain) : null;
      // Zero has one form: adding it takes the sign off the other.
      case NUMBER -> DECIMAL.matcher(plain).matches() ? Double.valueOf(plain) + 0.0 : null;
      case DATE -> day(plain);
      case TEXT -> cell;
    };
  }

  private static LocalDate day(String text) {
    try {
      return DAY.matcher(text).matches() ? LocalDate.parse(text) : null;
    } catch (DateTimeParseException e) {
      return null;
    }
  }
}
