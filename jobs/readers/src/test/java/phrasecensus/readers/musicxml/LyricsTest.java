package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.bar;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.solo;

import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.phrase.VerseLines;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Syllable;

/** Words as MusicXML 4.0 defines {@code lyric}, {@code syllabic} and {@code elision}. */
class LyricsTest {
  private static String lyric(String inside) {
    return "<lyric>" + inside + "</lyric>";
  }

  private static String text(String syllabic, String text) {
    return "<syllabic>" + syllabic + "</syllabic><text>" + text + "</text>";
  }

  private static List<Syllable> syllables(Solo solo) {
    return solo.notes().stream().map(Note::syllable).toList();
  }

  @Test
  void syllablesSayWhetherAWordBegins() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 1, lyric(text("begin", "Har")))
                    + note("D", 4, 1, lyric(text("end", "bour,")))
                    + note("E", 4, 1, lyric("<text>blue</text>"))
                    + note("F", 4, 1, lyric("<extend/>"))));

    assertThat(syllables(solo))
        .containsExactly(
            new Syllable("Har", true),
            new Syllable("bour,", false),
            new Syllable("blue", true),
            null);
    assertThat(VerseLines.sungShare(solo)).isEqualTo(.75);
  }

  @Test
  void twoSyllablesOnOneNoteAreOneText() {
    String both = text("single", "the") + "<elision> </elision>" + text("begin", "o");

    assertThat(syllables(solo(bar(note("C", 4, 4, lyric(both))))))
        .containsExactly(new Syllable("the o", true));
  }

  @Test
  void firstVerseCounts() {
    Solo solo =
        solo(bar(note("C", 4, 4, lyric(text("single", "one")) + lyric(text("single", "two")))));

    assertThat(syllables(solo)).containsExactly(new Syllable("one", true));
  }

  @Test
  void tiedNoteIsSungOnce() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 2, "<tie type='start'/>" + lyric(text("single", "long")))
                    + note("C", 4, 2, "<tie type='stop'/>")));

    assertThat(syllables(solo)).containsExactly(new Syllable("long", true));
  }

  @Test
  void numbersUnderNotesAreNoWords() {
    Solo solo =
        solo(
            bar(
                note("C", 4, 2, lyric(text("single", "1")))
                    + note("D", 4, 2, lyric(text("single", "\u266d7")))));

    assertThat(syllables(solo)).containsExactly(null, null);
  }
}
