package phrasecensus.comparison;

import java.io.Serializable;

/**
 * Names a group of the corpus.
 *
 * @param by name of the grouping that makes it
 * @param value what its solos have in common
 * @param without the student whose own files are left out; empty for the whole group
 */
public record GroupKey(String by, String value, String without) implements Serializable {}
