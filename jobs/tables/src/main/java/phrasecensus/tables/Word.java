package phrasecensus.tables;

/** A word of a vocabulary that a schema lists; every vocabulary is an enum. */
public interface Word {
  /** The word as it stands in tables. */
  String word();

  /** The word; null for null. */
  static String orNull(Word value) {
    return value == null ? null : value.word();
  }

  /** Its place among the words of its vocabulary, from 0. */
  int ordinal();
}
