package phrasecensus.readers.musicxml;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.audiveris.proxymusic.AboveBelow;
import org.audiveris.proxymusic.BackwardForward;
import org.audiveris.proxymusic.BarStyle;
import org.audiveris.proxymusic.BarStyleColor;
import org.audiveris.proxymusic.Barline;
import org.audiveris.proxymusic.Bass;
import org.audiveris.proxymusic.BassStep;
import org.audiveris.proxymusic.Bracket;
import org.audiveris.proxymusic.Clef;
import org.audiveris.proxymusic.ClefSign;
import org.audiveris.proxymusic.Credit;
import org.audiveris.proxymusic.Degree;
import org.audiveris.proxymusic.DegreeAlter;
import org.audiveris.proxymusic.DegreeType;
import org.audiveris.proxymusic.DegreeTypeValue;
import org.audiveris.proxymusic.DegreeValue;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.DirectionType;
import org.audiveris.proxymusic.Encoding;
import org.audiveris.proxymusic.Ending;
import org.audiveris.proxymusic.FormattedText;
import org.audiveris.proxymusic.FormattedTextId;
import org.audiveris.proxymusic.Harmony;
import org.audiveris.proxymusic.HarmonyAlter;
import org.audiveris.proxymusic.Identification;
import org.audiveris.proxymusic.Key;
import org.audiveris.proxymusic.Kind;
import org.audiveris.proxymusic.KindValue;
import org.audiveris.proxymusic.LineEnd;
import org.audiveris.proxymusic.LineType;
import org.audiveris.proxymusic.Lyric;
import org.audiveris.proxymusic.MeasureStyle;
import org.audiveris.proxymusic.Metronome;
import org.audiveris.proxymusic.Miscellaneous;
import org.audiveris.proxymusic.MiscellaneousField;
import org.audiveris.proxymusic.Notations;
import org.audiveris.proxymusic.NoteType;
import org.audiveris.proxymusic.ObjectFactory;
import org.audiveris.proxymusic.PerMinute;
import org.audiveris.proxymusic.Repeat;
import org.audiveris.proxymusic.RightLeftMiddle;
import org.audiveris.proxymusic.Root;
import org.audiveris.proxymusic.RootStep;
import org.audiveris.proxymusic.Slash;
import org.audiveris.proxymusic.Slur;
import org.audiveris.proxymusic.Sound;
import org.audiveris.proxymusic.StartStop;
import org.audiveris.proxymusic.StartStopContinue;
import org.audiveris.proxymusic.StartStopDiscontinue;
import org.audiveris.proxymusic.Syllabic;
import org.audiveris.proxymusic.TextElementData;
import org.audiveris.proxymusic.Tie;
import org.audiveris.proxymusic.Tied;
import org.audiveris.proxymusic.TiedType;
import org.audiveris.proxymusic.Time;
import org.audiveris.proxymusic.Transpose;
import org.audiveris.proxymusic.TypedText;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordAlteration;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.score.StaffSigns;
import phrasecensus.music.score.TempoChange;

/** Single elements of a MusicXML document, made of our values. */
final class WrittenElements {
  private static final ObjectFactory FACTORY = new ObjectFactory();
  private static final Pattern BEATS = Pattern.compile("([0-9]+(?:\\+[0-9]+)*)/([0-9]+)(?:\\+|$)");
  private static final int LOW_LINE = 55;

  private WrittenElements() {}

  static Identification identification(SoloDescription description, String rights) {
    Identification identification = new Identification();
    if (!rights.isEmpty()) {
      TypedText text = new TypedText();
      text.setValue(rights);
      identification.getRights().add(text);
    }
    description
        .creators()
        .forEach(
            (role, creator) -> {
              TypedText text = new TypedText();
              text.setType(role);
              text.setValue(creator);
              identification.getCreator().add(text);
            });
    Encoding encoding = new Encoding();
    encoding
        .getEncodingDateOrEncoderOrSoftware()
        .add(FACTORY.createEncodingSoftware("Phrase Census"));
    identification.setEncoding(encoding);
    if (!description.miscellaneous().isEmpty()) {
      Miscellaneous miscellaneous = new Miscellaneous();
      description
          .miscellaneous()
          .forEach(
              (field, value) -> {
                MiscellaneousField element = new MiscellaneousField();
                element.setName(field);
                element.setValue(value);
                miscellaneous.getMiscellaneousField().add(element);
              });
      identification.setMiscellaneous(miscellaneous);
    }
    return identification;
  }

  static Direction direction(DirectionType type) {
    Direction direction = new Direction();
    direction.setPlacement(AboveBelow.ABOVE);
    direction.getDirectionType().add(type);
    return direction;
  }

  /** Words above the staff. */
  static Direction words(String text) {
    DirectionType type = new DirectionType();
    FormattedTextId words = new FormattedTextId();
    words.setValue(text);
    type.getWordsOrSymbol().add(words);
    Direction direction = direction(type);
    direction.setPlacement(AboveBelow.ABOVE);
    return direction;
  }

  /** A title, or a paragraph under it, on the first page. */
  static Credit credit(String text, boolean title) {
    Credit credit = new Credit();
    credit.setPage(BigInteger.ONE);
    credit
        .getCreditTypeOrLinkOrBookmark()
        .add(FACTORY.createCreditCreditType(title ? "title" : "subtitle"));
    FormattedText words = new FormattedText();
    words.setValue(text);
    credit.getCreditTypeOrLinkOrBookmark().add(FACTORY.createCreditCreditWords(words));
    return credit;
  }

  static Direction bracket(int number, StartStopContinue end, boolean dashed) {
    Bracket bracket = new Bracket();
    bracket.setNumber(number);
    bracket.setType(end);
    bracket.setLineEnd(LineEnd.DOWN);
    bracket.setLineType(dashed ? LineType.DASHED : LineType.SOLID);
    DirectionType type = new DirectionType();
    type.setBracket(bracket);
    return direction(type);
  }

  static Direction tempo(TempoChange tempo) {
    Metronome metronome = new Metronome();
    metronome.setBeatUnit("quarter");
    PerMinute perMinute = new PerMinute();
    String number = number(tempo.quartersPerMinute());
    perMinute.setValue(number);
    metronome.setPerMinute(perMinute);
    DirectionType type = new DirectionType();
    type.setMetronome(metronome);
    Direction direction = direction(type);
    Sound sound = new Sound();
    sound.setTempo(new BigDecimal(number));
    direction.setSound(sound);
    return direction;
  }

  private static String number(double value) {
    return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }

  static MeasureStyle slash(StartStop end) {
    Slash slash = new Slash();
    slash.setType(end);
    MeasureStyle style = new MeasureStyle();
    style.setSlash(slash);
    return style;
  }

  static Slur slur(StartStopContinue end, int number) {
    Slur slur = new Slur();
    slur.setType(end);
    slur.setNumber(number);
    return slur;
  }

  static Lyric lyric(String line, String text) {
    TextElementData data = new TextElementData();
    data.setValue(text);
    Lyric lyric = new Lyric();
    lyric.setNumber(line);
    lyric.getElisionAndSyllabicAndText().add(Syllabic.SINGLE);
    lyric.getElisionAndSyllabicAndText().add(data);
    return lyric;
  }

  static void tie(org.audiveris.proxymusic.Note element, Notations notations, StartStop end) {
    Tie tie = new Tie();
    tie.setType(end);
    element.getTie().add(tie);
    Tied tied = new Tied();
    tied.setType(end == StartStop.START ? TiedType.START : TiedType.STOP);
    notations.getTiedOrSlurOrTuplet().add(tied);
  }

  static NoteType type(String word) {
    NoteType type = new NoteType();
    type.setValue(word);
    return type;
  }

  static org.audiveris.proxymusic.Pitch pitch(Pitch written) {
    org.audiveris.proxymusic.Pitch pitch = new org.audiveris.proxymusic.Pitch();
    pitch.setStep(step(written.step()));
    if (written.alter() != 0 || written.cents() != 0) {
      pitch.setAlter(
          BigDecimal.valueOf(100L * written.alter() + written.cents(), 2).stripTrailingZeros());
    }
    pitch.setOctave(written.octave());
    return pitch;
  }

  private static org.audiveris.proxymusic.Step step(phrasecensus.music.pitch.Step step) {
    return org.audiveris.proxymusic.Step.fromValue(step.name());
  }

  static Transpose transpose(Transposition transposition) {
    Transpose transpose = new Transpose();
    transpose.setDiatonic(BigInteger.valueOf(transposition.diatonic()));
    transpose.setChromatic(BigDecimal.valueOf(transposition.chromatic()));
    if (transposition.octaves() != 0) {
      transpose.setOctaveChange(BigInteger.valueOf(transposition.octaves()));
    }
    return transpose;
  }

  static Key key(KeyChange change) {
    Key key = new Key();
    key.setFifths(BigInteger.valueOf(change.writtenFifths()));
    key.setMode(change.mode());
    return key;
  }

  static Time time(Metre metre) {
    Time time = new Time();
    Matcher pairs = BEATS.matcher(metre.text());
    while (pairs.find()) {
      time.getTimeSignature().add(FACTORY.createTimeBeats(pairs.group(1)));
      time.getTimeSignature().add(FACTORY.createTimeBeatType(pairs.group(2)));
    }
    if (time.getTimeSignature().isEmpty()) {
      time.setSenzaMisura("");
    }
    return time;
  }

  /** True when something stands at the beginning of the bar that a bar line has to carry. */
  static boolean startsSign(StaffSigns signs) {
    return signs.startsRepeat() || !signs.ending().isEmpty();
  }

  /** True when something stands at the end of the bar that a bar line has to carry. */
  static boolean endsSign(StaffSigns signs) {
    return signs.endsRepeat() || signs.endsEnding();
  }

  /** The bar line at the beginning. */
  static Barline startOf(StaffSigns signs, boolean isDouble) {
    Barline line = new Barline();
    line.setLocation(RightLeftMiddle.LEFT);
    if (isDouble) {
      line.setBarStyle(style(signs.startsRepeat() ? BarStyle.HEAVY_LIGHT : BarStyle.LIGHT_LIGHT));
    }
    if (!signs.ending().isEmpty()) {
      line.setEnding(ending(signs.ending(), StartStopDiscontinue.START));
    }
    if (signs.startsRepeat()) {
      line.setRepeat(repeat(BackwardForward.FORWARD));
    }
    return line;
  }

  /**
   * The bar line at the end.
   *
   * @param isDouble a double or final one
   * @param last true for the last bar
   * @param ending passes of the ending that stops here; empty for one that never started
   */
  static Barline endOf(StaffSigns signs, boolean isDouble, boolean last, String ending) {
    Barline line = new Barline();
    line.setLocation(RightLeftMiddle.RIGHT);
    if (isDouble) {
      line.setBarStyle(
          style(last || signs.endsRepeat() ? BarStyle.LIGHT_HEAVY : BarStyle.LIGHT_LIGHT));
    }
    if (signs.endsEnding() && !ending.isEmpty()) {
      line.setEnding(
          ending(
              ending,
              signs.endsRepeat() ? StartStopDiscontinue.STOP : StartStopDiscontinue.DISCONTINUE));
    }
    if (signs.endsRepeat()) {
      line.setRepeat(repeat(BackwardForward.BACKWARD));
    }
    return line;
  }

  private static BarStyleColor style(BarStyle style) {
    BarStyleColor colour = new BarStyleColor();
    colour.setValue(style);
    return colour;
  }

  private static Repeat repeat(BackwardForward direction) {
    Repeat repeat = new Repeat();
    repeat.setDirection(direction);
    return repeat;
  }

  private static Ending ending(String passes, StartStopDiscontinue type) {
    Ending ending = new Ending();
    ending.setNumber(passes);
    ending.setType(type);
    ending.setValue(type == StartStopDiscontinue.START ? passes.replace(", ", ".,") + "." : "");
    return ending;
  }

  /** A clef from letter, line and octaves, as in {@code G2-8}. */
  static Clef clef(String text) {
    Clef clef = new Clef();
    clef.setSign(ClefSign.fromValue(text.substring(0, 1)));
    clef.setLine(BigInteger.valueOf(text.charAt(1) - '0'));
    if (text.length() > 2) {
      int octaves = Integer.parseInt(text.substring(3)) / 7;
      clef.setClefOctaveChange(BigInteger.valueOf(text.charAt(2) == '-' ? -octaves : octaves));
    }
    return clef;
  }

  static Clef clef(double middle) {
    Clef clef = new Clef();
    clef.setSign(middle < LOW_LINE ? ClefSign.F : ClefSign.G);
    clef.setLine(BigInteger.valueOf(middle < LOW_LINE ? 4 : 2));
    return clef;
  }

  static Harmony harmony(Chord chord, String text) {
    Harmony harmony = new Harmony();
    List<Object> items = harmony.getHarmonyChord();
    Kind kind = new Kind();
    kind.setValue(KindValue.fromValue(chord.kind().musicXmlName()));
    if (!text.isEmpty()) {
      kind.setText(text);
    }
    if (chord.root() != null) {
      items.add(root(chord.root()));
    } else if (chord.isNone()) {
      // The schema wants a root or a function. A blank function hides in every program; a root
      // whose
      // text is blank is shown by MuseScore 3 all the same, as 'CN.C.'.
      items.add(new org.audiveris.proxymusic.StyleText());
      kind.setText("N.C.");
    } else {
      org.audiveris.proxymusic.StyleText function = new org.audiveris.proxymusic.StyleText();
      function.setValue("?");
      items.add(function);
    }
    items.add(kind);
    if (chord.bass() != null) {
      Bass bass = new Bass();
      BassStep step = new BassStep();
      step.setValue(step(chord.bass().step()));
      bass.setBassStep(step);
      bass.setBassAlter(alter(chord.bass().alter()));
      items.add(bass);
    }
    for (ChordAlteration alteration : chord.alterations()) {
      items.add(degree(alteration));
    }
    return harmony;
  }

  private static Root root(NoteName name) {
    RootStep step = new RootStep();
    step.setValue(step(name.step()));
    Root root = new Root();
    root.setRootStep(step);
    root.setRootAlter(alter(name.alter()));
    return root;
  }

  private static HarmonyAlter alter(int semitones) {
    if (semitones == 0) {
      return null;
    }
    HarmonyAlter alter = new HarmonyAlter();
    alter.setValue(BigDecimal.valueOf(semitones));
    return alter;
  }

  private static Degree degree(ChordAlteration alteration) {
    Degree degree = new Degree();
    DegreeValue value = new DegreeValue();
    value.setValue(BigInteger.valueOf(alteration.value()));
    degree.setDegreeValue(value);
    DegreeAlter alter = new DegreeAlter();
    alter.setValue(BigDecimal.valueOf(alteration.alter()));
    degree.setDegreeAlter(alter);
    DegreeType type = new DegreeType();
    type.setValue(
        switch (alteration.type()) {
          case ADD -> DegreeTypeValue.ADD;
          case ALTER -> DegreeTypeValue.ALTER;
          case SUBTRACT -> DegreeTypeValue.SUBTRACT;
        });
    degree.setDegreeType(type);
    return degree;
  }
}
