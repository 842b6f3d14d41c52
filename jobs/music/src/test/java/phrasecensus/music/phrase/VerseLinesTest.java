package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Syllable;

/** Words made up; capitals at the head of a line of verse are common practice. */
class VerseLinesTest {
  @Test
  void lineBeginsWithACapitalAfterPunctuation() {
    assertThat(beginnings("The wind is up, The sail is down")).containsExactly(0, 4);
  }

  @Test
  void lineBeginsWithACapitalAfterALongNote() {
    assertThat(beginnings("The wind is up= The sail is down")).containsExactly(0, 4);
  }

  @Test
  void nameInMidLineBeginsNone() {
    assertThat(beginnings("We sail to Cork today, We sail to Wick")).containsExactly(0, 5);
  }

  @Test
  void firstPersonNeedsBothPunctuationAndALongNote() {
    assertThat(beginnings("The wind, I know, is up=, I go, The end")).containsExactly(0, 6, 8);
  }

  @Test
  void syllableInsideAWordBeginsNone() {
    assertThat(beginnings("The wind= -Up, The sail")).containsExactly(0, 3);
  }

  @Test
  void capitalsThroughoutTellNothing() {
    assertThat(beginnings("THE WIND IS UP, THE SAIL IS DOWN")).isEmpty();
  }

  @Test
  void melodyWithoutWordsHasNoLines() {
    Solo solo = SoloText.solo(Metre.of(4, 4), 1, "0:C4:1 1:D4:1", "");

    assertThat(VerseLines.beginnings(solo)).isEmpty();
    assertThat(VerseLines.sungShare(solo)).isZero();
  }

  /** A quarter note a syllable, two for one with {@code =}; {@code -} goes on with a word. */
  private static List<Integer> beginnings(String text) {
    List<Note> notes = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    String[] words = text.split(" ");
    int at = 0;
    for (String word : words) {
      int length = word.contains("=") ? 2 : 1;
      line.append(at).append(":C4:").append(length).append(' ');
      at += length;
    }
    Solo solo = SoloText.solo(Metre.of(4, 4), at / 4 + 1, line.toString(), "");
    for (Note note : solo.notes()) {
      String word = words[note.index()].replace("=", "");
      notes.add(
          new Note(
              note.index(),
              note.onset(),
              note.length(),
              note.concert(),
              note.written(),
              note.barIndex(),
              note.tiedLengths(),
              0,
              false,
              List.of(),
              new Syllable(word.replace("-", ""), !word.startsWith("-"))));
    }
    return VerseLines.beginnings(
        new Solo(
            solo.description(),
            solo.bars(),
            notes,
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of()));
  }
}
