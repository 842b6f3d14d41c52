package phrasecensus.music.score;

/**
 * What is sung on a note: one syllable, or several that share the note.
 *
 * @param text as written, with its punctuation; not empty
 * @param beginsWord true for the first or only syllable of a word
 */
public record Syllable(String text, boolean beginsWord) {}
