package phrasecensus.grammar.binder;

/** The table and the annotated classes do not fit together; the build ends. */
final class BinderException extends IllegalStateException {
  private static final long serialVersionUID = 1L;

  BinderException(String message) {
    super(message);
  }
}
