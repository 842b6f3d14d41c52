package phrasecensus.report.lesson;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import phrasecensus.music.difficulty.Difficulty;
import phrasecensus.music.difficulty.WrittenNote;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.InOrder;
import phrasecensus.report.rows.SoloLine;

/**
 * A stretch of one solo written for the player of another: moved along the line of fifths, so that
 * spelling keeps its sense, and into the octave that suits the player's range.
 *
 * @param line its bars alone, with its notes and chords as the player reads them
 * @param phrase where it stands in that line
 * @param difficulty for that player
 * @param outside semitones by which its notes leave the range, all together
 */
public record MovedPhrase(
    SoloLine line, SoloLine.PhraseSpan phrase, Difficulty difficulty, int outside) {
  private static final Pattern ROOT = Pattern.compile("^([A-G])([\u266f#\u266db]*)");
  private static final Pattern BASS = Pattern.compile("/([A-G])([\u266f#\u266db]*)$");

  /**
   * A reader.
   *
   * @param transposition semitones from sounding to written pitch
   * @param lowest written pitch that lies well, a MIDI number
   * @param highest the same
   * @param clef as tables have it; null when unknown
   */
  public record Reader(int transposition, int lowest, int highest, String clef) {
    /** How a stretch is moved at concert pitch to be read: octaves left out. */
    int fifths() {
      int fifths = 7 * Math.floorMod(transposition, 12);
      return Math.floorMod(fifths + 5, 12) - 5;
    }
  }

  /**
   * Writes a stretch for a reader.
   *
   * @param source the solo that it comes from
   * @param fifths from its concert pitch to what the reader reads
   * @param signature sharps of the reader's key signature, flats negative
   */
  public static MovedPhrase of(
      LessonLine source, Stretch stretch, Reader reader, int fifths, int signature) {
    int up = Math.floorMod(7 * fifths, 12);
    int octaves = octaves(stretch, up, reader);
    List<SoloLine.Tone> notes = new ArrayList<>();
    List<SoloLine.LandingMark> marks = new ArrayList<>();
    List<WrittenNote> written = new ArrayList<>();
    int outside = 0;
    for (SoloLine.Tone note : stretch.notes()) {
      int midi = note.midiConcert() + up + 12 * octaves;
      NoteName name = NoteName.atFifths(Home.name(note.nameConcert()).fifths() + fifths);
      if (Math.abs(name.alter()) > 1) {
        name = plain(midi);
      }
      Pitch pitch = Pitch.of(name.step(), name.alter(), octave(name, midi));
      written.add(new WrittenNote(note.exactLength(), pitch));
      outside += outside(midi, reader);
      if (note.resting() != null) {
        marks.add(note.landing(notes.size(), 0));
      }
      notes.add(note.written(notes.size(), midi, pitch.toString()));
    }
    List<SoloLine.BarSpan> bars = new ArrayList<>();
    for (SoloLine.BarSpan bar :
        source.solo().bars().subList(stretch.firstBarIndex(), source.solo().bars().size())) {
      if (bar.onset() >= stretch.end() - 1e-9) {
        break;
      }
      bars.add(bar(bar, reader.clef(), signature));
    }
    List<SoloLine.ChordSpan> chords = new ArrayList<>();
    double from = bars.get(0).onset();
    double to = bars.get(bars.size() - 1).end();
    for (SoloLine.ChordSpan chord :
        InOrder.touching(
            source.solo().chords(), SoloLine.ChordSpan::onset, SoloLine.ChordSpan::end, from, to)) {
      if (chord.end() > from + 1e-9 && chord.onset() < to - 1e-9) {
        chords.add(
            new SoloLine.ChordSpan(
                Fraction.larger(bars.get(0).exactOnset(), chord.exactOnset()),
                chord.exactEnd(),
                moved(chord.symbolConcert(), fifths)));
      }
    }
    SoloLine.PhraseSpan phrase =
        new SoloLine.PhraseSpan(
            0,
            0,
            notes.size() - 1,
            stretch.onset(),
            stretch.end(),
            stretch.firstBar(),
            stretch.lastBar(),
            stretch.bars());
    return new MovedPhrase(
        new SoloLine(bars, chords, notes, List.of(phrase), marks),
        phrase,
        Difficulty.of(written, signature),
        outside);
  }

  private static int octaves(Stretch stretch, int up, Reader reader) {
    int best = 0;
    double least = Double.POSITIVE_INFINITY;
    double middle = (reader.lowest() + reader.highest()) / 2.0;
    for (int octaves = -4; octaves <= 4; octaves++) {
      double away = 0;
      for (SoloLine.Tone note : stretch.notes()) {
        int midi = note.midiConcert() + up + 12 * octaves;
        away += 100 * outside(midi, reader) + Math.abs(midi - middle);
      }
      if (away < least) {
        least = away;
        best = octaves;
      }
    }
    return best;
  }

  private static int outside(int midi, Reader reader) {
    return Math.max(0, Math.max(reader.lowest() - midi, midi - reader.highest()));
  }

  /** The simplest spelling of a pitch. */
  private static NoteName plain(int midi) {
    int fifths = Math.floorMod(7 * midi + 5, 12) - 5;
    return NoteName.atFifths(fifths);
  }

  private static int octave(NoteName name, int midi) {
    return Math.floorDiv(midi - name.step().semitones() - name.alter(), 12) - 1;
  }

  private static SoloLine.BarSpan bar(SoloLine.BarSpan bar, String clef, int signature) {
    return new SoloLine.BarSpan(
        bar.index(),
        bar.number(),
        bar.exactOnset(),
        bar.exactLength(),
        bar.metre(),
        bar.offset(),
        bar.pickup(),
        null,
        new SoloLine.Staff(signature, signature, clef, false, false, null, false, false));
  }

  /** A chord symbol moved along the line of fifths, its bass too. */
  static String moved(String symbol, int fifths) {
    String text = replaced(ROOT, symbol, "", fifths);
    return replaced(BASS, text, "/", fifths);
  }

  private static String replaced(Pattern pattern, String symbol, String before, int fifths) {
    Matcher found = pattern.matcher(symbol);
    if (!found.find()) {
      return symbol;
    }
    NoteName name = Home.name(found.group(1) + found.group(2));
    int place = name.fifths() + fifths;
    // Roots beyond six flats or sharps are read more easily under their other name.
    int near = place > 8 ? place - 12 : place < -6 ? place + 12 : place;
    return symbol.substring(0, found.start())
        + before
        + NoteName.atFifths(near)
        + symbol.substring(found.end());
  }
}
