package phrasecensus.tables;

/** A word of a vocabulary that a schema lists; every vocabulary is an enum. */
public interface Word {
  /** The word as it stands in tables. */
  String word();

  /** Its place among the words of its vocabulary, from 0. */
  int ordinal();
}
