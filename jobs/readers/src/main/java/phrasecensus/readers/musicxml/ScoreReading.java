package phrasecensus.readers.musicxml;

import java.util.List;
import java.util.Map;

/**
 * Everything read of a score.
 *
 * @param title work or movement title; empty when none
 * @param creators role to name
 * @param miscellaneous the file's own further fields
 * @param encoding character encoding of the document
 * @param parts in order of the file
 */
record ScoreReading(
    String title,
    Map<String, String> creators,
    Map<String, String> miscellaneous,
    String encoding,
    List<PartReading> parts) {}
