package phrasecensus.composer.score;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import phrasecensus.composer.cast.Instrument;
import phrasecensus.composer.harmony.ChordKind;
import phrasecensus.composer.harmony.ChordSymbol;
import phrasecensus.composer.harmony.NoteName;
import phrasecensus.composer.line.Changes;
import phrasecensus.composer.line.Tone;
import phrasecensus.composer.tune.Tune;

/** Writes one sheet in one dialect. */
public final class ScoreWriter {
  private static final int BEAT = Tune.QUARTER;
  private static final String SOFTWARE = "Phrase Census sample composer";
  private static final String RIGHTS =
      "Invented by a program; free for any use (CC0 1.0). Not a transcription of anything.";

  private final Sheet sheet;
  private final Dialect dialect;
  private final Tune tune;
  private final Instrument instrument;
  private final XmlText xml;
  private final int shift;
  private final int raise;
  private final List<Bar> bars = new ArrayList<>();
  private int divisions;
  private boolean slurOpen;

  private record Bar(int number, int start, int length, List<Piece> pieces) {}

  private ScoreWriter(Sheet sheet, Dialect dialect) {
    this.sheet = sheet;
    this.dialect = dialect;
    this.tune = sheet.solo().tune();
    this.instrument = sheet.player().instrument();
    this.xml = new XmlText(dialect.indent());
    this.shift = dialect.concert() ? 0 : instrument.fifthsToWritten();
    this.raise = (dialect.concert() ? 0 : -instrument.chromatic()) - 12 * instrument.octaveChange();
    cutBars();
    this.divisions = dialect.divisions() == 0 ? fewestDivisions() : dialect.divisions();
  }

  /** The bytes of the file. */
  public static byte[] bytes(Sheet sheet, Dialect dialect) {
    byte[] score = new ScoreWriter(sheet, dialect).text().getBytes(dialect.charset());
    return dialect == Dialect.ZIPPED ? zipped(score) : score;
  }

  private void cutBars() {
    int barTicks = tune.barTicks();
    int pickup = sheet.solo().pickup();
    if (pickup > 0) {
      List<Piece> pieces = BarLayout.pieces(sheet.solo().tones(), -pickup, pickup, List.of());
      bars.add(new Bar(0, -pickup, pickup, pieces));
    }
    for (int i = 0; i < sheet.solo().bars(); i++) {
      List<Integer> cuts = new ArrayList<>();
      if (!dialect.offsets()) {
        for (Tune.Placed placed : chart(i).chords()) {
          cuts.add(placed.onset());
        }
      }
      int start = i * barTicks;
      bars.add(
          new Bar(
              i + 1,
              start,
              barTicks,
              BarLayout.pieces(sheet.solo().tones(), start, barTicks, cuts)));
    }
  }

  private Tune.Bar chart(int bar) {
    return tune.bars().get(bar % tune.bars().size());
  }

  private int fewestDivisions() {
    int common = BEAT;
    for (Bar bar : bars) {
      for (Piece piece : bar.pieces()) {
        common = greatestDivisor(common, piece.length());
      }
    }
    return BEAT / common;
  }

  private static int greatestDivisor(int a, int b) {
    return b == 0 ? a : greatestDivisor(b, a % b);
  }

  private int duration(int ticks) {
    long scaled = (long) ticks * divisions;
    if (scaled % BEAT != 0) {
      throw new IllegalStateException("Cannot write " + ticks + " ticks in " + divisions);
    }
    return (int) (scaled / BEAT);
  }

  private String text() {
    xml.raw("<?xml version=\"1.0\" encoding=\"" + dialect.charset().name() + "\"?>");
    if (dialect.doctype()) {
      xml.raw(
          "<!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML "
              + dialect.version()
              + " Partwise//EN\" \"http://www.musicxml.org/dtds/partwise.dtd\">");
    }
    xml.start("score-partwise", "version", dialect.version());
    header();
    soloPart();
    if (dialect.piano()) {
      pianoPart();
    }
    xml.end();
    return xml.toString();
  }

  private void header() {
    if (dialect == Dialect.OFFSETS) {
      xml.leaf("movement-title", tune.title());
    } else {
      xml.start("work").leaf("work-title", tune.title()).end();
    }
    xml.start("identification");
    xml.leaf("creator", "Skerrowick Ferry House songbook (invented)", "type", "composer");
    if (dialect != Dialect.PLAIN && dialect != Dialect.ZIPPED) {
      xml.leaf("creator", sheet.player().name(), "type", "performer");
    }
    xml.leaf("rights", RIGHTS);
    xml.start("encoding").leaf("software", SOFTWARE).end();
    if (dialect == Dialect.ENGRAVED) {
      xml.start("miscellaneous").leaf("miscellaneous-field", sheet.style(), "name", "style");
      if (!sheet.date().isEmpty()) {
        xml.leaf("miscellaneous-field", sheet.date(), "name", "date");
      }
      xml.end();
    }
    xml.end();
    if (dialect.concert()) {
      xml.start("defaults").empty("concert-score").end();
    } else if (dialect.layout()) {
      xml.start("defaults").start("scaling");
      xml.leaf("millimeters", "7").leaf("tenths", 40).end().end();
    }
    xml.start("part-list");
    xml.start("score-part", "id", "P1").leaf("part-name", instrument.partName());
    if (dialect.layout()) {
      xml.leaf("part-abbreviation", instrument.partName().substring(0, 3) + ".");
      xml.start("score-instrument", "id", "P1-I1");
      xml.leaf("instrument-name", instrument.partName()).end();
    }
    xml.end();
    if (dialect.piano()) {
      xml.start("score-part", "id", "P2").leaf("part-name", "Piano").end();
    }
    xml.end();
  }

  private void soloPart() {
    xml.start("part", "id", "P1");
    for (int i = 0; i < bars.size(); i++) {
      startBar(i, true);
      soloBar(bars.get(i));
      endBar(i);
    }
    xml.end();
  }

  private void startBar(int index, boolean solo) {
    Bar bar = bars.get(index);
    List<String> attributes = new ArrayList<>(List.of("number", String.valueOf(bar.number())));
    if (bar.number() == 0) {
      attributes.addAll(List.of("implicit", "yes"));
    }
    if (dialect.layout()) {
      attributes.addAll(List.of("width", String.valueOf(bar.pieces().size() * 28 + 90)));
    }
    xml.start("measure", attributes.toArray(new String[0]));
    if (dialect.layout() && bar.number() > 1 && bar.number() % 4 == 1) {
      xml.empty("print", "new-system", "yes");
    }
    if (index == 0) {
      attributes(solo);
    }
    if (solo) {
      directions(index);
    }
  }

  private void attributes(boolean solo) {
    xml.start("attributes").leaf("divisions", divisions);
    xml.start("key").leaf("fifths", tune.key().fifths() + (solo ? shift : 0));
    if (dialect != Dialect.PLAIN) {
      xml.leaf("mode", tune.key().minor() ? "minor" : "major");
    }
    xml.end();
    xml.start("time").leaf("beats", tune.beats()).leaf("beat-type", 4).end();
    if (!solo) {
      xml.leaf("staves", 2);
      clef("G", 2, "1");
      clef("F", 4, "2");
    } else {
      boolean bass = instrument.bassClef();
      clef(bass ? "F" : "G", bass ? 4 : 2, null);
      int chromatic = dialect.concert() ? 0 : instrument.chromatic();
      if (chromatic != 0 || instrument.octaveChange() != 0) {
        xml.start("transpose");
        xml.leaf("diatonic", dialect.concert() ? 0 : instrument.diatonic());
        xml.leaf("chromatic", chromatic);
        if (instrument.octaveChange() != 0) {
          xml.leaf("octave-change", instrument.octaveChange());
        }
        xml.end();
      }
    }
    xml.end();
  }

  private void clef(String sign, int line, String number) {
    if (number == null) {
      xml.start("clef");
    } else {
      xml.start("clef", "number", number);
    }
    xml.leaf("sign", sign).leaf("line", line).end();
  }

  private void directions(int index) {
    Bar bar = bars.get(index);
    if (index == 0) {
      xml.start("direction", "placement", "above").start("direction-type");
      xml.start("metronome").leaf("beat-unit", "quarter");
      xml.leaf("per-minute", sheet.solo().tempo()).end().end();
      xml.empty("sound", "tempo", String.valueOf(sheet.solo().tempo())).end();
    }
    if (bar.number() == 0) {
      return;
    }
    String section = chart(bar.number() - 1).section();
    if (!section.isEmpty()) {
      xml.start("direction", "placement", "above").start("direction-type");
      xml.leaf("rehearsal", section).end().end();
    }
    int chorus = (bar.number() - 1) / tune.bars().size() + 1;
    boolean begins = (bar.number() - 1) % tune.bars().size() == 0;
    if (begins && chorus > 1 && dialect != Dialect.PLAIN) {
      xml.start("direction", "placement", "above").start("direction-type");
      xml.leaf("words", "chorus " + chorus).end().end();
    }
  }

  private void endBar(int index) {
    Bar bar = bars.get(index);
    boolean last = index == bars.size() - 1;
    boolean sectionEnds = !last && bar.number() > 0 && !chart(bar.number()).section().isEmpty();
    if (last || sectionEnds) {
      xml.start("barline", "location", "right");
      xml.leaf("bar-style", last ? "light-heavy" : "light-light").end();
    }
    xml.end();
  }

  private void soloBar(Bar bar) {
    List<Tune.Placed> chords = chordsAt(bar);
    Map<Piece, List<String>> beams = dialect.layout() ? beams(bar.pieces()) : Map.of();
    Accidentals accidentals = new Accidentals(tune.key().fifths() + shift);
    if (dialect.offsets()) {
      for (Tune.Placed chord : chords) {
        harmony(chord.chord().up(shift), chord.onset());
      }
    }
    for (Piece piece : bar.pieces()) {
      for (Tune.Placed chord : chords) {
        if (!dialect.offsets() && chord.onset() >= piece.start() && chord.onset() < piece.end()) {
          harmony(chord.chord().up(shift), 0);
        }
      }
      note(bar, piece, beams.getOrDefault(piece, List.of()), accidentals);
    }
  }

  /** The chord symbols to print in a bar of the solo part. */
  private List<Tune.Placed> chordsAt(Bar bar) {
    return dialect.chordsInSolo() ? printed(bar) : List.of();
  }

  private List<Tune.Placed> printed(Bar bar) {
    List<Tune.Placed> printed = new ArrayList<>();
    if (bar.number() == 0) {
      return printed;
    }
    for (Tune.Placed placed : chart(bar.number() - 1).chords()) {
      int tick = bar.start() + placed.onset();
      boolean change = sheet.solo().changes().at(tick).start() == tick;
      boolean section = placed.onset() == 0 && !chart(bar.number() - 1).section().isEmpty();
      if (change || section || dialect.everyBar()) {
        printed.add(placed);
      }
    }
    return printed;
  }

  private void harmony(ChordSymbol chord, int offset) {
    xml.start("harmony", "print-frame", "no");
    xml.start("root");
    if (chord.kind() == ChordKind.NONE) {
      xml.leaf("root-step", "C", "text", "").end();
      xml.leaf("kind", "none", "text", "N.C.").end();
      return;
    }
    xml.leaf("root-step", chord.root().step());
    alter("root-alter", chord.root());
    xml.end();
    if (dialect == Dialect.PLAIN || dialect == Dialect.WIDE) {
      xml.leaf("kind", chord.kind().musicXmlName());
    } else {
      xml.leaf("kind", chord.kind().musicXmlName(), "text", chord.suffix());
    }
    if (chord.bass() != null) {
      xml.start("bass").leaf("bass-step", chord.bass().step());
      alter("bass-alter", chord.bass());
      xml.end();
    }
    for (ChordSymbol.Degree degree : chord.degrees()) {
      xml.start("degree").leaf("degree-value", degree.value());
      xml.leaf("degree-alter", degree.alter()).leaf("degree-type", degree.type()).end();
    }
    if (offset > 0) {
      xml.leaf("offset", duration(offset));
    }
    xml.end();
  }

  private void alter(String element, NoteName name) {
    if (name.alter() != 0) {
      xml.leaf(element, name.alter());
    }
  }

  private void note(Bar bar, Piece piece, List<String> beams, Accidentals accidentals) {
    if (piece.rest()) {
      rest(bar, piece);
      return;
    }
    Tone tone = piece.tone();
    boolean first = !piece.tieStop();
    boolean marks = dialect.marks();
    if (first && marks && tone.graceMidi() >= 0) {
      grace(tone, accidentals);
    }
    NoteName name = tone.name().up(shift).readable();
    int midi = tone.midi() + raise;
    if (dialect.layout()) {
      xml.start("note", "default-x", String.valueOf(40 + piece.start() * 3));
    } else {
      xml.start("note");
    }
    pitch(name, midi);
    xml.leaf("duration", duration(piece.length()));
    if (piece.tieStop()) {
      xml.empty("tie", "type", "stop");
    }
    if (piece.tieStart()) {
      xml.empty("tie", "type", "start");
    }
    xml.leaf("voice", 1);
    value(piece);
    String accidental = accidentals.needed(name, name.octave(midi), piece.tieStop());
    if (dialect.accidentals() && accidental != null) {
      xml.leaf("accidental", accidental);
    }
    timeModification(piece);
    if (dialect.layout() && piece.written() < 96) {
      int middle = instrument.bassClef() ? 50 : 71;
      xml.leaf("stem", midi < middle ? "up" : "down");
    }
    for (int i = 0; i < beams.size(); i++) {
      xml.leaf("beam", beams.get(i), "number", String.valueOf(i + 1));
    }
    notations(piece, first && marks);
    xml.end();
  }

  private void grace(Tone tone, Accidentals accidentals) {
    NoteName name = tone.name().up(5 + shift).readable();
    int midi = tone.graceMidi() + raise;
    xml.start("note").empty("grace", "slash", "yes");
    pitch(name, midi);
    xml.leaf("voice", 1).leaf("type", "eighth");
    String accidental = accidentals.needed(name, name.octave(midi), false);
    if (dialect.accidentals() && accidental != null) {
      xml.leaf("accidental", accidental);
    }
    xml.end();
  }

  private void pitch(NoteName name, int midi) {
    xml.start("pitch").leaf("step", name.step());
    alter("alter", name);
    xml.leaf("octave", name.octave(midi)).end();
  }

  private void rest(Bar bar, Piece piece) {
    boolean whole = piece.length() == bar.length() && bar.number() > 0;
    xml.start("note");
    if (whole) {
      xml.empty("rest", "measure", "yes");
    } else {
      xml.empty("rest");
    }
    xml.leaf("duration", duration(piece.length())).leaf("voice", 1);
    if (!whole) {
      value(piece);
      timeModification(piece);
    }
    if (piece.tuplet() != null) {
      notations(piece, false);
    }
    xml.end();
  }

  private void value(Piece piece) {
    xml.leaf("type", piece.type());
    if (piece.dotted()) {
      xml.empty("dot");
    }
  }

  private void timeModification(Piece piece) {
    if (piece.tuplet() != null) {
      xml.start("time-modification");
      xml.leaf("actual-notes", 3).leaf("normal-notes", 2).end();
    }
  }

  private void notations(Piece piece, boolean marks) {
    Piece.Triplet tuplet = piece.tuplet();
    boolean opens = tuplet != null && piece.start() == tuplet.start();
    boolean closes = tuplet != null && piece.end() == tuplet.end();
    Tone tone = piece.tone();
    boolean slurStops = marks && slurOpen;
    boolean slurStarts = marks && !slurOpen && tone.slur() && follows(tone);
    boolean articulated = marks && tone.mark() != Tone.Mark.NONE;
    boolean empty =
        !opens
            && !closes
            && !piece.tieStart()
            && !piece.tieStop()
            && !slurStops
            && !slurStarts
            && !articulated;
    if (empty) {
      return;
    }
    xml.start("notations");
    if (piece.tieStop()) {
      xml.empty("tied", "type", "stop");
    }
    if (piece.tieStart()) {
      xml.empty("tied", "type", "start");
    }
    if (slurStops) {
      xml.empty("slur", "type", "stop", "number", "1");
      slurOpen = false;
    }
    if (slurStarts) {
      xml.empty("slur", "type", "start", "number", "1");
      slurOpen = true;
    }
    if (opens) {
      xml.empty("tuplet", "type", "start", "bracket", "yes");
    }
    if (closes) {
      xml.empty("tuplet", "type", "stop");
    }
    if (articulated) {
      xml.start("articulations");
      xml.empty(
          switch (tone.mark()) {
            case ACCENT -> "accent";
            case STACCATO -> "staccato";
            case TENUTO, NONE -> "tenuto";
          });
      xml.end();
    }
    xml.end();
  }

  /** True when another tone of the same phrase follows, so that a slur has an end. */
  private boolean follows(Tone tone) {
    List<Tone> tones = sheet.solo().tones();
    int next = tones.indexOf(tone) + 1;
    return next < tones.size() && tones.get(next).phrase() == tone.phrase();
  }

  /** Beams within each beat or triplet. */
  private static Map<Piece, List<String>> beams(List<Piece> pieces) {
    Map<Piece, List<String>> beams = new HashMap<>();
    int i = 0;
    while (i < pieces.size()) {
      int j = i;
      while (j < pieces.size()
          && pieces.get(j).beams() > 0
          && !pieces.get(j).rest()
          && pieces.get(j).start() / BEAT == pieces.get(i).start() / BEAT) {
        j++;
      }
      if (j - i >= 2) {
        for (int k = i; k < j; k++) {
          beams.put(pieces.get(k), beamsOf(pieces, i, k, j));
        }
      }
      i = Math.max(i + 1, j);
    }
    return beams;
  }

  private static List<String> beamsOf(List<Piece> pieces, int from, int at, int to) {
    List<String> beams = new ArrayList<>();
    beams.add(at == from ? "begin" : at == to - 1 ? "end" : "continue");
    if (pieces.get(at).beams() > 1) {
      boolean before = at > from && pieces.get(at - 1).beams() > 1;
      boolean after = at < to - 1 && pieces.get(at + 1).beams() > 1;
      if (before) {
        beams.add(after ? "continue" : "end");
      } else if (after) {
        beams.add("begin");
      } else {
        beams.add(at == from ? "forward hook" : "backward hook");
      }
    }
    return beams;
  }

  private void pianoPart() {
    xml.start("part", "id", "P2");
    for (int i = 0; i < bars.size(); i++) {
      startBar(i, false);
      pianoBar(bars.get(i));
      endBar(i);
    }
    xml.end();
  }

  private void pianoBar(Bar bar) {
    List<Tune.Placed> printed = printed(bar);
    List<int[]> stretches = new ArrayList<>();
    List<Changes.Span> spans = new ArrayList<>();
    if (bar.number() > 0) {
      List<Tune.Placed> chords = chart(bar.number() - 1).chords();
      for (int i = 0; i < chords.size(); i++) {
        int end = i + 1 < chords.size() ? chords.get(i + 1).onset() : bar.length();
        stretches.add(new int[] {chords.get(i).onset(), end});
        spans.add(sheet.solo().changes().at(bar.start() + chords.get(i).onset()));
      }
    }
    for (int staff = 1; staff <= 2; staff++) {
      if (staff == 2) {
        xml.start("backup").leaf("duration", duration(bar.length())).end();
      }
      if (stretches.isEmpty()) {
        pianoRest(bar.length(), staff, bar.length());
      }
      for (int i = 0; i < stretches.size(); i++) {
        int from = stretches.get(i)[0];
        int length = stretches.get(i)[1] - from;
        for (Tune.Placed placed : printed) {
          if (staff == 1 && placed.onset() == from) {
            harmony(placed.chord(), 0);
          }
        }
        ChordSymbol chord = spans.get(i).chord();
        if (chord.kind() == ChordKind.NONE) {
          pianoRest(length, staff, bar.length());
        } else if (staff == 1) {
          List<Integer> core = chord.core();
          NoteName third = chord.root().up(core.get(1)).readable();
          NoteName upper = chord.root().up(core.get(core.size() - 1)).readable();
          int lower = nearest(third, 53);
          pianoNote(third, lower, length, 1, false);
          pianoNote(upper, above(upper, lower), length, 1, true);
        } else {
          NoteName bass = chord.bass() == null ? chord.root() : chord.bass();
          pianoNote(bass, nearest(bass, 38), length, 2, false);
        }
      }
    }
  }

  private static int nearest(NoteName name, int lowest) {
    return lowest + Math.floorMod(name.pitchClass() - lowest, 12);
  }

  private static int above(NoteName name, int midi) {
    return midi + Math.floorMod(name.pitchClass() - midi, 12);
  }

  private void pianoNote(NoteName name, int midi, int length, int staff, boolean stacked) {
    xml.start("note");
    if (stacked) {
      xml.empty("chord");
    }
    pitch(name, midi);
    xml.leaf("duration", duration(length)).leaf("voice", staff == 1 ? 1 : 5);
    value(new Piece(0, length, null, false, false, null));
    xml.leaf("staff", staff).end();
  }

  private void pianoRest(int length, int staff, int barLength) {
    xml.start("note");
    if (length == barLength) {
      xml.empty("rest", "measure", "yes");
    } else {
      xml.empty("rest");
    }
    xml.leaf("duration", duration(length)).leaf("voice", staff == 1 ? 1 : 5);
    if (length < barLength) {
      value(new Piece(0, length, null, false, false, null));
    }
    xml.leaf("staff", staff).end();
  }

  /**
   * A container with stored entries: a deflated one would depend on the zlib of the Java runtime,
   * and a clock would change the bytes.
   */
  private static byte[] zipped(byte[] score) {
    String container =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<container>\n  <rootfiles>\n"
            + "    <rootfile full-path=\"score.musicxml\""
            + " media-type=\"application/vnd.recordare.musicxml+xml\"/>\n"
            + "  </rootfiles>\n</container>\n";
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      store(
          zip,
          "mimetype",
          "application/vnd.recordare.musicxml".getBytes(StandardCharsets.US_ASCII));
      store(zip, "META-INF/container.xml", container.getBytes(StandardCharsets.UTF_8));
      store(zip, "score.musicxml", score);
    } catch (IOException e) {
      throw new UncheckedIOException("Cannot write a container in memory", e);
    }
    return bytes.toByteArray();
  }

  private static void store(ZipOutputStream zip, String name, byte[] content) throws IOException {
    CRC32 checksum = new CRC32();
    checksum.update(content);
    ZipEntry entry = new ZipEntry(name);
    entry.setMethod(ZipEntry.STORED);
    entry.setSize(content.length);
    entry.setCompressedSize(content.length);
    entry.setCrc(checksum.getValue());
    entry.setTimeLocal(LocalDateTime.of(2000, 1, 1, 0, 0));
    zip.putNextEntry(entry);
    zip.write(content);
    zip.closeEntry();
  }
}
