package phrasecensus.schema;

/** A schema file that no rows can be written from; ends the build. */
final class SchemaException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  SchemaException(String message) {
    super(message);
  }
}
