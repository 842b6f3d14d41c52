package phrasecensus.schema;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * A column of a table.
 *
 * @param name snake_case
 * @param nullable whether a value may be missing
 * @param description what it means, with its unit
 * @param vocabulary the words that it may hold; null for any
 */
record ColumnSchema(
    String name, Type type, boolean nullable, String description, Vocabulary vocabulary) {
  /** What a value is in Java and how it comes out of cells and goes into them. */
  enum Type {
    TEXT("String", "String", "text"),
    WHOLE("int", "Integer", "whole"),
    LONG_WHOLE("long", "Long", "longWhole"),
    NUMBER("double", "Double", "number"),
    FLAG("boolean", "Boolean", "flag"),
    DAY("LocalDate", "LocalDate", "date"),
    TEXTS("List<String>", "List<String>", "texts"),
    WHOLES("List<Integer>", "List<Integer>", "wholes");

    final String plain;
    final String boxed;
    final String method;

    Type(String plain, String boxed, String method) {
      this.plain = plain;
      this.boxed = boxed;
      this.method = method;
    }

    static Type of(String table, String column, JsonNode type) {
      String name =
          type.isTextual()
              ? type.textValue()
              : type.path("type").textValue() + " of " + type.path("elementType").textValue();
      return switch (name) {
        case "string" -> TEXT;
        case "integer" -> WHOLE;
        case "long" -> LONG_WHOLE;
        case "double" -> NUMBER;
        case "boolean" -> FLAG;
        case "date" -> DAY;
        case "array of string" -> TEXTS;
        case "array of integer" -> WHOLES;
        default ->
            throw new SchemaException(table + "." + column + " has the type " + name + ": unknown");
      };
    }

    boolean isPrimitive() {
      return !plain.equals(boxed);
    }

    boolean isList() {
      return this == TEXTS || this == WHOLES;
    }
  }

  String member() {
    return JavaName.member(name);
  }

  /** The type of its value in Java. */
  String javaType() {
    if (vocabulary != null) {
      return vocabulary.className();
    }
    return nullable ? type.boxed : type.plain;
  }

  /**
   * Where it stands for null what is missing, and where a value that must be there has to be looked
   * for.
   */
  boolean isReference() {
    return nullable || !type.isPrimitive();
  }
}
