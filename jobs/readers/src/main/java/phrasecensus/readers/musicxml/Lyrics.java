package phrasecensus.readers.musicxml;

import org.audiveris.proxymusic.Lyric;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.Syllabic;
import org.audiveris.proxymusic.TextElementData;
import phrasecensus.music.score.Syllable;

/** Words under notes. Text without a letter is none: counting, fingerings, degrees of chords. */
final class Lyrics {
  private Lyrics() {}

  /** The syllable of the first verse that is written at a note; null without words. */
  static Syllable syllable(Note note) {
    for (Lyric lyric : note.getLyric()) {
      StringBuilder text = new StringBuilder();
      boolean beginsWord = true;
      for (Object item : lyric.getElisionAndSyllabicAndText()) {
        if (item instanceof TextElementData data) {
          text.append(text.isEmpty() ? "" : " ").append(data.getValue().strip());
        } else if (text.isEmpty() && item instanceof Syllabic syllabic) {
          beginsWord = syllabic == Syllabic.SINGLE || syllabic == Syllabic.BEGIN;
        }
      }
      if (text.chars().anyMatch(Character::isLetter)) {
        return new Syllable(text.toString(), beginsWord);
      }
    }
    return null;
  }
}
