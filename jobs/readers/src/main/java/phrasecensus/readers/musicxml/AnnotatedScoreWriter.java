package phrasecensus.readers.musicxml;

import jakarta.xml.bind.JAXBContext;
import jakarta.xml.bind.JAXBElement;
import jakarta.xml.bind.JAXBException;
import jakarta.xml.bind.Marshaller;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import javax.xml.namespace.QName;
import org.audiveris.proxymusic.Articulations;
import org.audiveris.proxymusic.Attributes;
import org.audiveris.proxymusic.BreathMark;
import org.audiveris.proxymusic.Caesura;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.DirectionType;
import org.audiveris.proxymusic.EmptyPlacement;
import org.audiveris.proxymusic.Fermata;
import org.audiveris.proxymusic.FormattedTextId;
import org.audiveris.proxymusic.Grace;
import org.audiveris.proxymusic.Harmony;
import org.audiveris.proxymusic.Notations;
import org.audiveris.proxymusic.Notehead;
import org.audiveris.proxymusic.NoteheadValue;
import org.audiveris.proxymusic.ObjectFactory;
import org.audiveris.proxymusic.Offset;
import org.audiveris.proxymusic.PartList;
import org.audiveris.proxymusic.PartName;
import org.audiveris.proxymusic.Print;
import org.audiveris.proxymusic.Rest;
import org.audiveris.proxymusic.ScoreInstrument;
import org.audiveris.proxymusic.ScorePart;
import org.audiveris.proxymusic.ScorePartwise;
import org.audiveris.proxymusic.StartStop;
import org.audiveris.proxymusic.StartStopContinue;
import org.audiveris.proxymusic.TimeModification;
import org.audiveris.proxymusic.Unpitched;
import org.audiveris.proxymusic.Work;
import org.audiveris.proxymusic.YesNo;
import org.glassfish.jaxb.runtime.v2.JAXBContextFactory;
import phrasecensus.grammar.ScoreElements;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.GraceNote;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Span;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/**
 * Writes a solo as a MusicXML 4.0 document with what the analysis says about it: each phrase under
 * a bracket, texts below notes, some notes marked. The music is the solo's own: read again, the
 * document gives the same notes, bars and chords.
 */
public final class AnnotatedScoreWriter {
  /** The colour of marked notes; each also has a sign below it, for those who see no colour. */
  private static final String MARK_COLOUR = "#B3261E";

  private static final String MARK_SIGN = "*";
  private static final Pattern ID = Pattern.compile("[A-Za-z_][A-Za-z0-9._-]*");

  /**
   * A phrase as it is to be bracketed.
   *
   * @param firstNote index of its first note
   * @param lastNote index of its last note
   */
  public record PhraseSpan(int firstNote, int lastNote) {}

  /**
   * What is written beside the music.
   *
   * @param phrases in order, without overlap
   * @param labels note index to the text below the note
   * @param markedNotes indexes of notes that are to stand out
   */
  public record Annotations(
      List<PhraseSpan> phrases, Map<Integer, String> labels, Set<Integer> markedNotes) {
    public Annotations {
      phrases = List.copyOf(phrases);
      labels = Map.copyOf(labels);
      markedNotes = Set.copyOf(markedNotes);
    }

    /** Nothing but the music. */
    public static Annotations none() {
      return new Annotations(List.of(), Map.of(), Set.of());
    }
  }

  /**
   * What a printed sheet has beside music.
   *
   * @param systemStarts indexes of the bars with which a new system begins
   * @param emptyBars indexes of bars to be filled by the player, whose rests are not shown
   * @param words words above the staff by the moment at which they stand
   * @param paragraphs text under the title
   * @param rights sentence about the rights; empty for none
   */
  public record SheetLayout(
      Set<Integer> systemStarts,
      Set<Integer> emptyBars,
      Map<Fraction, String> words,
      List<String> paragraphs,
      String rights) {
    public SheetLayout {
      systemStarts = Set.copyOf(systemStarts);
      emptyBars = Set.copyOf(emptyBars);
      words = Map.copyOf(words);
      paragraphs = List.copyOf(paragraphs);
    }

    /** Nothing but the music. */
    public static SheetLayout none() {
      return new SheetLayout(Set.of(), Set.of(), Map.of(), List.of(), "");
    }
  }

  private final ObjectFactory factory = new ObjectFactory();
  private final Solo solo;
  private final Annotations annotations;
  private final SheetLayout layout;
  private final Fraction divisions;
  private final List<Placed> directions = new ArrayList<>();
  private Transposition transposition = Transposition.NONE;
  private String clefInForce = "";
  private String ending = "";
  private int nextNote;
  private int nextGrace;
  private int nextDirection;
  private int nextChord;

  /** Something that stands at a moment; lower ranks come first. */
  private record Placed(Fraction at, int rank, Object element) {}

  private AnnotatedScoreWriter(Solo solo, Annotations annotations, SheetLayout layout) {
    this.solo = solo;
    this.annotations = annotations;
    this.layout = layout;
    this.divisions = Fraction.of(divisions(solo));
  }

  /**
   * The document, in UTF-8; the same bytes for the same solo and annotations.
   *
   * @throws ArithmeticException if no whole number of divisions fits all lengths
   */
  public static byte[] document(Solo solo, Annotations annotations) {
    return document(solo, annotations, SheetLayout.none());
  }

  /**
   * The document of a sheet, in UTF-8; the same bytes for the same solo, annotations and layout.
   *
   * @throws ArithmeticException if no whole number of divisions fits all lengths
   */
  public static byte[] document(Solo solo, Annotations annotations, SheetLayout layout) {
    ScorePartwise score = new AnnotatedScoreWriter(solo, annotations, layout).score();
    StringWriter text = new StringWriter();
    text.write("<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"no\"?>\n");
    text.write(
        "<!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\""
            + " \"http://www.musicxml.org/dtds/partwise.dtd\">\n");
    try {
      Marshaller marshaller = Binding.CONTEXT.createMarshaller();
      marshaller.setProperty(Marshaller.JAXB_FRAGMENT, true);
      marshaller.setProperty(Marshaller.JAXB_FORMATTED_OUTPUT, true);
      marshaller.marshal(score, text);
    } catch (JAXBException e) {
      throw new IllegalStateException("Cannot write the annotated score: " + e, e);
    }
    return text.append('\n').toString().getBytes(StandardCharsets.UTF_8);
  }

  /** Built once, on first use: it is safe for all threads and takes half a second. */
  private static final class Binding {
    static final JAXBContext CONTEXT = context();

    private static JAXBContext context() {
      try {
        // By class, because a service loader finds whatever else is on the class path.
        return new JAXBContextFactory()
            .createContext(new Class<?>[] {ScorePartwise.class}, Map.of());
      } catch (JAXBException e) {
        throw new IllegalStateException("Cannot build the MusicXML binding: " + e, e);
      }
    }
  }

  private static long divisions(Solo solo) {
    long divisions = 1;
    for (Bar bar : solo.bars()) {
      divisions = withDenominator(divisions, bar.onset());
      divisions = withDenominator(divisions, bar.length());
    }
    for (Note note : solo.notes()) {
      divisions = withDenominator(divisions, note.onset());
      divisions = withDenominator(divisions, note.length());
      for (Fraction tied : note.tiedLengths()) {
        divisions = withDenominator(divisions, tied);
      }
    }
    for (ChordSpan chord : solo.chords()) {
      divisions = withDenominator(divisions, chord.onset());
    }
    for (GraceNote grace : solo.graceNotes()) {
      divisions = withDenominator(divisions, grace.onset());
    }
    for (KeyChange key : solo.keys()) {
      divisions = withDenominator(divisions, key.onset());
    }
    for (TempoChange tempo : solo.tempi()) {
      divisions = withDenominator(divisions, tempo.onset());
    }
    for (Mark mark : solo.marks()) {
      divisions = withDenominator(divisions, mark.onset());
      divisions = withDenominator(divisions, mark.end());
    }
    for (Span span : solo.unknownSpans()) {
      divisions = withDenominator(divisions, span.onset());
      divisions = withDenominator(divisions, span.end());
    }
    for (Fraction onset : solo.unpitchedOnsets()) {
      divisions = withDenominator(divisions, onset);
    }
    return divisions;
  }

  private static long withDenominator(long divisions, Fraction time) {
    long denominator = time.denominator();
    return divisions % denominator == 0
        ? divisions
        : Math.multiplyExact(divisions, Fraction.of(divisions, denominator).denominator());
  }

  private ScorePartwise score() {
    ScorePartwise score = new ScorePartwise();
    score.setVersion("4.0");
    Work work = new Work();
    work.setWorkTitle(solo.description().title());
    score.setWork(work);
    score.setIdentification(WrittenElements.identification(solo.description(), layout.rights()));
    if (!layout.paragraphs().isEmpty()) {
      score.getCredit().add(WrittenElements.credit(solo.description().title(), true));
      layout
          .paragraphs()
          .forEach(text -> score.getCredit().add(WrittenElements.credit(text, false)));
    }
    String id = solo.description().partId();
    ScorePart scorePart = new ScorePart();
    scorePart.setId(ID.matcher(id).matches() ? id : "P1");
    PartName name = new PartName();
    String partName = solo.description().partName();
    name.setValue(partName.isEmpty() ? "Solo" : partName);
    scorePart.setPartName(name);
    if (!solo.description().instrument().isEmpty()) {
      ScoreInstrument instrument = new ScoreInstrument();
      instrument.setId(scorePart.getId() + "-I1");
      instrument.setInstrumentName(solo.description().instrument());
      scorePart.getScoreInstrument().add(instrument);
    }
    PartList list = new PartList();
    list.getPartGroupOrScorePart().add(scorePart);
    score.setPartList(list);
    ScorePartwise.Part part = new ScorePartwise.Part();
    part.setId(scorePart);
    score.getPart().add(part);
    collectDirections();
    Metre metre = null;
    for (Bar bar : solo.bars()) {
      part.getMeasure().add(measure(bar, metre));
      metre = bar.metre();
    }
    return score;
  }

  // Directions.

  private void collectDirections() {
    layout
        .words()
        .forEach((at, text) -> directions.add(new Placed(at, 0, WrittenElements.words(text))));
    for (TempoChange tempo : solo.tempi()) {
      directions.add(new Placed(tempo.onset(), 1, WrittenElements.tempo(tempo)));
    }
    int dashed = 0;
    for (Mark mark : solo.marks()) {
      if (mark.kind() == Mark.Kind.REHEARSAL) {
        DirectionType type = new DirectionType();
        FormattedTextId text = new FormattedTextId();
        text.setValue(mark.text());
        type.getRehearsal().add(text);
        directions.add(new Placed(mark.onset(), 0, WrittenElements.direction(type)));
      } else if (mark.kind() == Mark.Kind.BRACKET) {
        int number = 3 + dashed++ % 4;
        directions.add(
            new Placed(
                mark.onset(), 3, WrittenElements.bracket(number, StartStopContinue.START, true)));
        directions.add(
            new Placed(
                endOfNoteAt(mark.end()),
                2,
                WrittenElements.bracket(number, StartStopContinue.STOP, true)));
      }
    }
    int phraseNumber = 0;
    for (PhraseSpan phrase : annotations.phrases()) {
      int number = 1 + phraseNumber++ % 2;
      Note first = solo.notes().get(phrase.firstNote());
      Note last = solo.notes().get(phrase.lastNote());
      directions.add(
          new Placed(
              first.onset(), 3, WrittenElements.bracket(number, StartStopContinue.START, false)));
      directions.add(
          new Placed(
              last.end(), 2, WrittenElements.bracket(number, StartStopContinue.STOP, false)));
    }
    directions.sort(Comparator.comparing(Placed::at).thenComparing(Placed::rank));
  }

  private Fraction endOfNoteAt(Fraction onset) {
    for (Note note : solo.notes()) {
      if (note.onset().equals(onset)) {
        return note.end();
      }
    }
    return onset;
  }

  // Bars.

  private ScorePartwise.Part.Measure measure(Bar bar, Metre before) {
    ScorePartwise.Part.Measure measure = new ScorePartwise.Part.Measure();
    if (!bar.signs().ending().isEmpty()) {
      ending = bar.signs().ending();
    }
    measure.setNumber(bar.number());
    if (bar.metricalOffset().isPositive()) {
      measure.setImplicit(YesNo.YES);
    }
    List<Object> contents = measure.getNoteOrBackupOrForward();
    if (bar.index() > 0 && layout.systemStarts().contains(bar.index())) {
      Print print = new Print();
      print.setNewSystem(YesNo.YES);
      contents.add(print);
    }
    // The mark of a later bar's double line is written at the end of the bar before it.
    boolean startsDouble = bar.index() == 0 && hasDoubleBarAt(bar.onset());
    if (startsDouble || WrittenElements.startsSign(bar.signs())) {
      contents.add(WrittenElements.startOf(bar.signs(), startsDouble));
    }
    Attributes attributes = new Attributes();
    boolean any = false;
    if (bar.index() == 0) {
      attributes.setDivisions(BigDecimal.valueOf(divisions.numerator()));
      transposition = transpositionFrom(0);
      any = true;
    }
    boolean transposed = bar.index() == 0 && !transposition.isNone();
    if (nextNote < solo.notes().size()
        && solo.notes().get(nextNote).onset().isBefore(bar.end())
        && !transpositionFrom(nextNote).equals(transposition)) {
      // A key signature is read by the transposition beside it.
      transposition = transpositionFrom(nextNote);
      transposed = true;
    }
    for (KeyChange key : solo.keys()) {
      if (key.onset().equals(bar.onset()) && key.writtenFifths() != null) {
        attributes.getKey().add(WrittenElements.key(key));
        any = true;
      }
    }
    if (!bar.metre().equals(before == null ? Metre.FREE : before)) {
      attributes.getTime().add(WrittenElements.time(bar.metre()));
      any = true;
    }
    String clef = bar.signs().clef();
    if (bar.index() == 0 && clef.isEmpty()) {
      attributes.getClef().add(WrittenElements.clef(middle()));
    } else if (!clef.equals(clefInForce)) {
      attributes.getClef().add(WrittenElements.clef(clef));
      any = true;
    }
    clefInForce = clef;
    if (transposed) {
      attributes.getTranspose().add(WrittenElements.transpose(transposition));
      any = true;
    }
    if (any) {
      contents.add(attributes);
    }
    TreeSet<Fraction> cuts = cuts(bar);
    Fraction from = null;
    for (Fraction to : cuts) {
      if (from != null) {
        addSegment(contents, bar, from, to);
      }
      from = to;
    }
    addAt(contents, bar.end(), bar.end(), true);
    if (hasDoubleBarAt(bar.end()) || WrittenElements.endsSign(bar.signs())) {
      boolean last = bar.index() == solo.bars().size() - 1;
      contents.add(WrittenElements.endOf(bar.signs(), hasDoubleBarAt(bar.end()), last, ending));
    }
    if (bar.signs().endsEnding()) {
      ending = "";
    }
    return measure;
  }

  private boolean hasDoubleBarAt(Fraction moment) {
    return solo.marks().stream()
        .anyMatch(mark -> mark.kind() == Mark.Kind.DOUBLE_BAR && mark.onset().equals(moment));
  }

  /** Moments of a bar at which something starts or ends. */
  private TreeSet<Fraction> cuts(Bar bar) {
    TreeSet<Fraction> cuts = new TreeSet<>();
    cuts.add(bar.onset());
    cuts.add(bar.end());
    for (int i = firstSoundingFrom(bar.onset()); i < solo.notes().size(); i++) {
      Note note = solo.notes().get(i);
      if (!note.onset().isBefore(bar.end())) {
        break;
      }
      Fraction at = note.onset();
      cut(cuts, bar, at);
      for (Fraction tied : note.tiedLengths()) {
        at = at.plus(tied);
        cut(cuts, bar, at);
      }
      cut(cuts, bar, note.end());
    }
    for (Fraction onset : solo.unpitchedOnsets()) {
      cut(cuts, bar, onset);
      cut(cuts, bar, onset.plus(Fraction.ONE));
    }
    for (GraceNote grace : solo.graceNotes()) {
      cut(cuts, bar, grace.onset());
    }
    for (Span span : solo.unknownSpans()) {
      cut(cuts, bar, span.onset());
      cut(cuts, bar, span.end());
    }
    for (KeyChange key : solo.keys()) {
      cut(cuts, bar, key.onset());
    }
    return cuts;
  }

  private int firstSoundingFrom(Fraction moment) {
    int first = nextNote;
    while (first > 0 && solo.notes().get(first - 1).end().isAfter(moment)) {
      first--;
    }
    return first;
  }

  private static void cut(TreeSet<Fraction> cuts, Bar bar, Fraction moment) {
    if (moment.isAfter(bar.onset()) && moment.isBefore(bar.end())) {
      cuts.add(moment);
    }
  }

  private void addSegment(List<Object> contents, Bar bar, Fraction from, Fraction to) {
    addAttributesAt(contents, bar, from);
    Note starting =
        nextNote < solo.notes().size() && solo.notes().get(nextNote).onset().equals(from)
            ? solo.notes().get(nextNote)
            : null;
    if (starting != null) {
      Transposition needed = transpositionFrom(nextNote);
      if (!needed.equals(transposition)) {
        transposition = needed;
        Attributes attributes = new Attributes();
        attributes.getTranspose().add(WrittenElements.transpose(transposition));
        contents.add(attributes);
      }
      nextNote++;
    }
    addAt(contents, from, to, false);
    Note sounding = starting;
    if (sounding == null && nextNote > 0) {
      Note last = solo.notes().get(nextNote - 1);
      sounding = last.end().isAfter(from) ? last : null;
    }
    if (sounding != null) {
      addNote(contents, sounding, from, to);
    } else if (solo.unpitchedOnsets().contains(from)) {
      addUnpitched(contents, to.minus(from));
    } else {
      addRests(contents, bar, from, to);
    }
  }

  /** Keys inside a bar and the ends of slash notation. */
  private void addAttributesAt(List<Object> contents, Bar bar, Fraction moment) {
    Attributes attributes = new Attributes();
    boolean any = false;
    if (!moment.equals(bar.onset())) {
      for (KeyChange key : solo.keys()) {
        if (key.onset().equals(moment) && key.writtenFifths() != null) {
          attributes.getKey().add(WrittenElements.key(key));
          any = true;
        }
      }
    }
    for (Span span : solo.unknownSpans()) {
      if (span.end().equals(moment)) {
        attributes.getMeasureStyle().add(WrittenElements.slash(StartStop.STOP));
        any = true;
      }
    }
    for (Span span : solo.unknownSpans()) {
      if (span.onset().equals(moment)) {
        attributes.getMeasureStyle().add(WrittenElements.slash(StartStop.START));
        any = true;
      }
    }
    if (any) {
      contents.add(attributes);
    }
  }

  /** Directions, chord symbols and grace notes from a moment up to another one. */
  private void addAt(List<Object> contents, Fraction from, Fraction to, boolean ends) {
    while (nextDirection < directions.size()
        && (directions.get(nextDirection).at().isBefore(to)
            || ends
                && directions.get(nextDirection).rank() == 2
                && directions.get(nextDirection).at().equals(to))) {
      Placed placed = directions.get(nextDirection++);
      Direction direction = (Direction) placed.element();
      direction.setOffset(offset(placed.at().minus(from)));
      contents.add(direction);
    }
    while (nextChord < solo.chords().size() && solo.chords().get(nextChord).onset().isBefore(to)) {
      ChordSpan chord = solo.chords().get(nextChord++);
      Harmony element =
          WrittenElements.harmony(chord.concert().sounding(transposition.inverse()), chord.text());
      element.setOffset(offset(chord.onset().minus(from)));
      contents.add(element);
    }
    while (nextGrace < solo.graceNotes().size()
        && (solo.graceNotes().get(nextGrace).onset().isBefore(to)
            || ends && isAfterGrace(solo.graceNotes().get(nextGrace), to))) {
      contents.add(grace(solo.graceNotes().get(nextGrace++)));
    }
  }

  /** A grace note at the very end of the music leads into nothing and stays in the last bar. */
  private boolean isAfterGrace(GraceNote grace, Fraction end) {
    return grace.onset().equals(end) && end.equals(solo.length());
  }

  private Offset offset(Fraction distance) {
    if (!distance.isPositive()) {
      return null;
    }
    Offset offset = new Offset();
    offset.setValue(ticks(distance));
    return offset;
  }

  private BigDecimal ticks(Fraction length) {
    Fraction ticks = length.times(divisions);
    if (!ticks.isWhole()) {
      throw new ArithmeticException("Cannot write " + length + " in " + divisions + " divisions");
    }
    return BigDecimal.valueOf(ticks.numerator());
  }

  // Notes.

  private void addNote(List<Object> contents, Note note, Fraction from, Fraction to) {
    Fraction at = from;
    for (NoteValues.Value value : NoteValues.of(to.minus(from))) {
      boolean first = at.equals(note.onset());
      at = at.plus(value.length());
      boolean last = at.equals(note.end());
      org.audiveris.proxymusic.Note element = valued(value);
      element.setPitch(written(note.concert()));
      Notations notations = new Notations();
      if (!first) {
        WrittenElements.tie(element, notations, StartStop.STOP);
      }
      if (!last) {
        WrittenElements.tie(element, notations, StartStop.START);
      }
      if (first) {
        addSigns(element, notations, note);
      }
      if (note.uncertain()) {
        Notehead head = new Notehead();
        head.setValue(NoteheadValue.NORMAL);
        head.setParentheses(YesNo.YES);
        element.setNotehead(head);
      }
      if (annotations.markedNotes().contains(note.index())) {
        element.setColor(MARK_COLOUR);
      }
      if (!notations.getTiedOrSlurOrTuplet().isEmpty()) {
        element.getNotations().add(notations);
      }
      contents.add(element);
    }
  }

  private void addSigns(org.audiveris.proxymusic.Note element, Notations notations, Note note) {
    Articulations articulations = new Articulations();
    for (String word : note.articulations()) {
      if (ScoreElements.PLAIN_ARTICULATIONS.contains(word)) {
        articulations
            .getAccentOrStrongAccentOrStaccato()
            .add(new JAXBElement<>(new QName(word), EmptyPlacement.class, new EmptyPlacement()));
      }
    }
    int slurs = 0;
    for (Mark mark : solo.marks()) {
      switch (mark.kind()) {
        case SLUR -> {
          int number = 1 + slurs++ % 6;
          if (mark.end().equals(note.onset()) && !mark.onset().equals(mark.end())) {
            notations
                .getTiedOrSlurOrTuplet()
                .add(WrittenElements.slur(StartStopContinue.STOP, number));
          }
          if (mark.onset().equals(note.onset()) && !mark.onset().equals(mark.end())) {
            notations
                .getTiedOrSlurOrTuplet()
                .add(WrittenElements.slur(StartStopContinue.START, number));
          }
        }
        case BREATH -> {
          if (mark.onset().equals(note.onset())) {
            articulations
                .getAccentOrStrongAccentOrStaccato()
                .add(factory.createArticulationsBreathMark(new BreathMark()));
          }
        }
        case CAESURA -> {
          if (mark.onset().equals(note.onset())) {
            articulations
                .getAccentOrStrongAccentOrStaccato()
                .add(factory.createArticulationsCaesura(new Caesura()));
          }
        }
        case FERMATA -> {
          if (mark.onset().equals(note.onset())) {
            notations.getTiedOrSlurOrTuplet().add(new Fermata());
          }
        }
        default -> {
          // Directions and bar lines are written elsewhere.
        }
      }
    }
    if (!articulations.getAccentOrStrongAccentOrStaccato().isEmpty()) {
      notations.getTiedOrSlurOrTuplet().add(articulations);
    }
    String label = annotations.labels().get(note.index());
    if (label != null && !label.isBlank()) {
      element.getLyric().add(WrittenElements.lyric("1", label.strip()));
    }
    if (annotations.markedNotes().contains(note.index())) {
      element.getLyric().add(WrittenElements.lyric("2", MARK_SIGN));
    }
  }

  private org.audiveris.proxymusic.Note valued(NoteValues.Value value) {
    org.audiveris.proxymusic.Note element = new org.audiveris.proxymusic.Note();
    element.setDuration(ticks(value.length()));
    element.setVoice("1");
    if (value.type() != null) {
      element.setType(WrittenElements.type(value.type()));
      for (int dot = 0; dot < value.dots(); dot++) {
        element.getDot().add(new EmptyPlacement());
      }
      if (value.isTuplet()) {
        TimeModification modification = new TimeModification();
        modification.setActualNotes(BigInteger.valueOf(value.actual()));
        modification.setNormalNotes(BigInteger.valueOf(value.normal()));
        element.setTimeModification(modification);
      }
    }
    return element;
  }

  private org.audiveris.proxymusic.Note grace(GraceNote note) {
    org.audiveris.proxymusic.Note element = new org.audiveris.proxymusic.Note();
    Grace grace = new Grace();
    if (note.slashed()) {
      grace.setSlash(YesNo.YES);
    }
    element.setGrace(grace);
    element.setPitch(written(note.concert()));
    element.setVoice("1");
    element.setType(WrittenElements.type("eighth"));
    return element;
  }

  private void addUnpitched(List<Object> contents, Fraction length) {
    boolean first = true;
    for (NoteValues.Value value : NoteValues.of(length)) {
      org.audiveris.proxymusic.Note element = valued(value);
      if (first) {
        element.setUnpitched(new Unpitched());
      } else {
        element.setRest(new Rest());
      }
      first = false;
      contents.add(element);
    }
  }

  /** A gap; cut at beats where it starts or ends between them. */
  private void addRests(List<Object> contents, Bar bar, Fraction from, Fraction to) {
    if (from.equals(bar.onset()) && to.equals(bar.end())) {
      org.audiveris.proxymusic.Note element = new org.audiveris.proxymusic.Note();
      Rest rest = new Rest();
      rest.setMeasure(YesNo.YES);
      element.setRest(rest);
      if (layout.emptyBars().contains(bar.index())) {
        element.setPrintObject(YesNo.NO);
      }
      element.setDuration(ticks(to.minus(from)));
      element.setVoice("1");
      contents.add(element);
      return;
    }
    Fraction beat = bar.metre().beatLength();
    Fraction at = from;
    Fraction past = bar.positionOf(from).modulo(beat);
    if (!past.isZero()) {
      Fraction next = Fraction.smaller(to, from.plus(beat.minus(past)));
      addRest(contents, next.minus(at));
      at = next;
    }
    Fraction rest = bar.positionOf(to).modulo(beat);
    Fraction lastBeat = to.minus(rest);
    if (lastBeat.isAfter(at)) {
      addRest(contents, lastBeat.minus(at));
      at = lastBeat;
    }
    if (at.isBefore(to)) {
      addRest(contents, to.minus(at));
    }
  }

  private void addRest(List<Object> contents, Fraction length) {
    for (NoteValues.Value value : NoteValues.of(length)) {
      org.audiveris.proxymusic.Note element = valued(value);
      element.setRest(new Rest());
      contents.add(element);
    }
  }

  /** The interval from written to sounding pitch of a note; of none for a solo without notes. */
  private Transposition transpositionFrom(int index) {
    if (index >= solo.notes().size()) {
      return Transposition.NONE;
    }
    Pitch written = solo.notes().get(index).written();
    Pitch concert = solo.notes().get(index).concert();
    int steps = concert.staffSteps() - written.staffSteps();
    int semitones = concert.midi() - written.midi();
    int octaves = steps / 7;
    return new Transposition(steps - 7 * octaves, semitones - 12 * octaves, octaves);
  }

  private org.audiveris.proxymusic.Pitch written(Pitch concert) {
    return WrittenElements.pitch(transposition.inverse().sounding(concert));
  }

  /** Middle of the line as written, in MIDI numbers. */
  private double middle() {
    return solo.notes().stream().mapToInt(note -> note.written().midi()).average().orElse(67);
  }
}
