package phrasecensus.tables;

import com.fasterxml.jackson.databind.JsonNode;

/** The types that columns have, a subset of Spark's. */
public enum ColumnType {
  STRING(String.class),
  INTEGER(Integer.class),
  LONG(Long.class),
  DOUBLE(Double.class),
  BOOLEAN(Boolean.class),
  /** A day, without a time. */
  DATE(java.time.LocalDate.class),
  /** A list of text without nulls. */
  STRING_ARRAY(java.util.List.class),
  /** A list of 32-bit whole numbers without nulls. */
  INTEGER_ARRAY(java.util.List.class);

  private final Class<?> valueClass;

  ColumnType(Class<?> valueClass) {
    this.valueClass = valueClass;
  }

  /** The Java class of a value. */
  public Class<?> valueClass() {
    return valueClass;
  }

  public boolean isNumber() {
    return this == INTEGER || this == LONG || this == DOUBLE || this == INTEGER_ARRAY;
  }

  /**
   * Spark's name of a type of single values.
   *
   * @throws IllegalStateException for a list, which has none
   */
  String sparkName() {
    if (valueClass == java.util.List.class) {
      throw new IllegalStateException("Cannot name the type " + this);
    }
    return name().toLowerCase(java.util.Locale.ROOT);
  }

  static ColumnType of(JsonNode type) {
    if (type.isTextual()) {
      switch (type.textValue()) {
        case "string":
          return STRING;
        case "integer":
          return INTEGER;
        case "long":
          return LONG;
        case "double":
          return DOUBLE;
        case "boolean":
          return BOOLEAN;
        case "date":
          return DATE;
        default:
          break;
      }
    } else if ("array".equals(type.path("type").textValue())
        && !type.path("containsNull").asBoolean(true)) {
      if ("string".equals(type.path("elementType").textValue())) {
        return STRING_ARRAY;
      }
      if ("integer".equals(type.path("elementType").textValue())) {
        return INTEGER_ARRAY;
      }
    }
    throw new IllegalArgumentException("Invalid column type: " + type);
  }
}
