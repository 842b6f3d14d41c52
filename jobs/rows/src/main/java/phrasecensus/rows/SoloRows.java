package phrasecensus.rows;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import phrasecensus.music.analysis.SoloAnalyser;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordClass;
import phrasecensus.music.chord.ChordDegree;
import phrasecensus.music.chord.ChordQuality;
import phrasecensus.music.context.HarmonicContext;
import phrasecensus.music.context.HarmonicContexts;
import phrasecensus.music.context.PhraseContext;
import phrasecensus.music.difficulty.Difficulty;
import phrasecensus.music.difficulty.WrittenNote;
import phrasecensus.music.form.SoloForm;
import phrasecensus.music.harmony.CentreScale;
import phrasecensus.music.harmony.ChorusFinder.Choruses;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.landing.RestingNote;
import phrasecensus.music.phrase.ByMaterialRule;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.GraceNote;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.statistic.SoloStatistics;
import phrasecensus.music.statistic.StatisticValue;
import phrasecensus.music.time.Fraction;
import phrasecensus.tables.Metadata;
import phrasecensus.tables.MetadataColumns;
import phrasecensus.tables.MetadataType;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/** The rows of one analysed solo in every table of reading. */
final class SoloRows {
  /** In place of the quality of a chord that has none: N.C., power chords, unknown kinds. */
  private static final String UNKNOWN = "unknown";

  /** The two columns of a fraction, named once and not once a row. */
  private record FractionColumns(String numerator, String denominator) {
    static FractionColumns of(String stem) {
      return new FractionColumns(stem + "_num", stem + "_den");
    }
  }

  private static final FractionColumns ONSET = FractionColumns.of("onset");
  private static final FractionColumns LENGTH = FractionColumns.of("length");
  private static final FractionColumns END = FractionColumns.of("end");
  private static final Set<String> COMPARED =
      StatisticsCatalogue.builtIn().all().stream()
          .filter(StatisticDefinition::compared)
          .map(StatisticDefinition::key)
          .collect(Collectors.toUnmodifiableSet());

  private static final FractionColumns POSITION = FractionColumns.of("position");
  private static final FractionColumns METRICAL_OFFSET = FractionColumns.of("metrical_offset");

  private final String soloId;
  private final String role;
  private final String file;
  private final SoloAnalysis analysis;
  private final Solo solo;
  private final SoloStatistics.WithPhrases statistics;
  private final Map<String, List<TableRow>> rows;

  SoloRows(
      String soloId,
      String role,
      String file,
      SoloAnalysis analysis,
      Map<String, List<TableRow>> rows) {
    this.soloId = soloId;
    this.role = role;
    this.file = file;
    this.analysis = analysis;
    this.solo = analysis.solo();
    this.statistics = SoloStatistics.withPhrases(analysis);
    this.rows = rows;
  }

  void add(TableSchema solosSchema, Map<String, String> metadata, String student) {
    addSolo(solosSchema, metadata, student);
    addBars();
    Map<ChordSpan, Integer> chordPlaces = addChords();
    addCentres();
    addNotes(chordPlaces);
    addGraceNotes();
    addPhrases();
    addLandings();
    addContexts();
    addStatistics();
  }

  /** The statistics of the solo under a further phrase rule. */
  void addUnder(PhraseRule rule) {
    String name = PhraseRules.text(rule);
    SoloAnalysis under = SoloAnalyser.underRule(analysis, rule);
    // A score without marks has no value under them, and no part in how far they move a norm.
    boolean applies = under.rule().reason() != ByMaterialRule.Reason.NO_MARKS;
    for (StatisticValue value : SoloStatistics.of(under)) {
      add(
          row("rule_statistics")
              .set("rule", name)
              .set("statistic", value.key())
              .set("value", applies ? value.value() : null)
              .set("n", applies ? value.n() : 0));
    }
  }

  private TableRow.Builder row(String table) {
    return row(TableSchemas.named(table));
  }

  private TableRow.Builder row(TableSchema schema) {
    return TableRow.of(schema).set("solo_id", soloId).set("role", role).set("file", file);
  }

  private void add(TableRow.Builder row) {
    TableRow built = row.build();
    rows.computeIfAbsent(built.schema().table(), name -> new ArrayList<>()).add(built);
  }

  private static TableRow.Builder set(
      TableRow.Builder row, FractionColumns columns, Fraction fraction) {
    return row.set(columns.numerator(), fraction.numerator())
        .set(columns.denominator(), fraction.denominator());
  }

  private void addSolo(TableSchema schema, Map<String, String> metadata, String student) {
    SoloDescription description = solo.description();
    KeyChange key = solo.keys().isEmpty() ? null : solo.keys().get(0);
    String day = metadata.get("date");
    LocalDate date = day == null ? null : LocalDate.parse(day);
    TableRow.Builder row =
        row(schema)
            .set("student", student)
            .set("date", date)
            .set("title", metadata.getOrDefault("title", description.title()))
            .set("performer", metadata.getOrDefault("performer", performer(description)))
            .set("instrument", metadata.getOrDefault("instrument", description.instrument()))
            .set("part", description.partId())
            .set("part_reason", description.partReason())
            .set("chord_source", description.chordSource())
            .set("metre", solo.bars().isEmpty() ? "free" : solo.bars().get(0).metre().text())
            .set(
                "tempo_qpm",
                solo.tempi().isEmpty() ? null : solo.tempi().get(0).quartersPerMinute())
            .set("key_fifths", key == null ? null : key.concertFifths())
            .set("centre_tonic_pc", tonic(analysis.centre()))
            .set("centre_mode", analysis.centre().mode().word())
            .set("centre_scale", scale(analysis.scale()))
            .set("centre_source", analysis.centreSource().word())
            .set("chorus_bars", choruses().map(Choruses::bars).orElse(null))
            .set("chorus_source", choruses().map(found -> found.source().word()).orElse(null))
            .set("bars", solo.bars().size())
            .set("notes", solo.notes().size())
            .set("phrases", analysis.phrases().size())
            .set("phrase_rule", PhraseRules.text(analysis.rule().rule()))
            .set("phrase_rule_reason", analysis.rule().reason().word());
    set(row, LENGTH, solo.length());
    metadata.forEach(
        (column, value) -> {
          if (!Metadata.FILLING.contains(column)) {
            String name = MetadataColumns.inTable(column);
            MetadataType type = MetadataType.of(schema.columns().get(schema.place(name)).type());
            row.set(name, type.value(value));
          }
        });
    add(row);
  }

  private static String performer(SoloDescription description) {
    for (String role : List.of("performer", "soloist", "improviser")) {
      String name = description.creators().get(role);
      if (name != null) {
        return name;
      }
    }
    return "";
  }

  private static Integer tonic(TonalCentre centre) {
    return centre.isKnown() ? centre.tonic() : null;
  }

  private static String scale(CentreScale scale) {
    return scale == null ? null : scale.word();
  }

  private void addBars() {
    Map<Fraction, String> sections = new HashMap<>();
    for (Mark mark : solo.marks()) {
      if (mark.kind() == Mark.Kind.REHEARSAL) {
        sections.putIfAbsent(mark.onset(), mark.text());
      }
    }
    Set<Fraction> doubleBars = new HashSet<>();
    for (Mark mark : solo.marks()) {
      if (mark.kind() == Mark.Kind.DOUBLE_BAR) {
        doubleBars.add(mark.onset());
      }
    }
    Iterator<KeyChange> keys = solo.keys().iterator();
    KeyChange next = keys.hasNext() ? keys.next() : null;
    KeyChange key = null;
    for (Bar bar : solo.bars()) {
      while (next != null && !next.onset().isAfter(bar.onset())) {
        key = next;
        next = keys.hasNext() ? keys.next() : null;
      }
      TableRow.Builder row =
          row("bars")
              .set("bar_index", bar.index())
              .set("bar_number", bar.number())
              .set("metre", bar.metre().text())
              .set("pickup", bar.pickup())
              .set("section", sections.get(bar.onset()))
              .set("chorus", known(analysis.form().chorus(bar.index())))
              .set("bar_in_chorus", known(analysis.form().barInChorus(bar.index())))
              .set("bar_in_section", known(analysis.form().barInSection(bar.index())))
              .set("key_fifths_concert", key == null ? null : key.concertFifths())
              .set("key_fifths_written", key == null ? null : key.writtenFifths())
              .set("clef", bar.signs().clef().isEmpty() ? null : bar.signs().clef())
              .set("starts_repeat", bar.signs().startsRepeat())
              .set("ends_repeat", bar.signs().endsRepeat())
              .set("ending", bar.signs().ending().isEmpty() ? null : bar.signs().ending())
              .set("ends_ending", bar.signs().endsEnding())
              .set("ends_double", doubleBars.contains(bar.end()));
      set(set(row, ONSET, bar.onset()), LENGTH, bar.length());
      set(row, METRICAL_OFFSET, bar.metricalOffset());
      add(row);
    }
  }

  private Map<ChordSpan, Integer> addChords() {
    IdentityHashMap<ChordSpan, Integer> places = new IdentityHashMap<>();
    for (ChordSpan span : solo.chords()) {
      int place = places.size();
      places.put(span, place);
      TableRow.Builder row =
          row("chords")
              .set("chord_index", place)
              .set("symbol", span.concert().symbol())
              .set("symbol_written", span.written().symbol())
              .set("text", span.text())
              .set(
                  "root_pc",
                  span.concert().isNone() || span.concert().root() == null
                      ? null
                      : span.concert().root().pitchClass())
              .set(
                  "bass_pc",
                  span.concert().bass() == null ? null : span.concert().bass().pitchClass())
              .set("pitch_classes", span.concert().pitchClasses())
              .set("core_pitch_classes", span.concert().corePitchClasses())
              .set("kind", span.concert().kind().musicXmlName());
      add(set(set(row, ONSET, span.onset()), END, span.end()));
    }
    return places;
  }

  private void addCentres() {
    int place = 0;
    for (TonalCentreSpan span : analysis.centres()) {
      TableRow.Builder row =
          row("tonal_centres")
              .set("centre_index", place++)
              .set("tonic_pc", tonic(span.centre()))
              .set("mode", span.centre().mode().word())
              .set("scale", scale(span.scale()))
              .set("margin", span.margin())
              .set("source", span.source().word());
      add(set(set(row, ONSET, span.onset()), END, span.end()));
    }
  }

  private void addNotes(Map<ChordSpan, Integer> chordPlaces) {
    Map<Integer, String> landings = new HashMap<>();
    for (Landing landing : analysis.landings()) {
      landings.put(landing.noteIndex(), landing.kind().word());
    }
    Map<Integer, RestingNote> resting = new HashMap<>();
    for (RestingNote note : analysis.restingNotes()) {
      resting.put(note.noteIndex(), note);
    }
    int phrase = 0;
    int stretch = 0;
    for (Note note : solo.notes()) {
      while (note.index() > analysis.stretches().get(stretch).lastNote()) {
        stretch++;
      }
      RestingNote rest = resting.get(note.index());
      while (note.index() > analysis.phrases().get(phrase).lastNote()) {
        phrase++;
      }
      Bar bar = solo.bars().get(note.barIndex());
      NoteHarmony harmony = analysis.harmony().get(note.index());
      TableRow.Builder row =
          row("notes")
              .set("note_index", note.index())
              .set("bar_index", bar.index())
              .set("bar_number", bar.number())
              .set("midi_concert", note.concert().midi())
              .set("midi_written", note.written().midi())
              .set("name_concert", note.concert().toString())
              .set("name_written", note.written().toString())
              .set("phrase_index", phrase)
              .set("chord_index", harmony.chord() == null ? null : chordPlaces.get(harmony.chord()))
              .set("chord_degree", harmony.degree() == null ? null : harmony.degree().name())
              .set("degree_role", role(harmony.degree()))
              .set("anticipated", harmony.anticipated())
              .set("in_centre_scale", harmony.centre().isKnown() ? harmony.inCentreScale() : null)
              .set("in_key", harmony.centre().isKnown() ? harmony.inKey() : null)
              .set("stretch_index", stretch)
              .set("resting", rest == null ? null : rest.kind().word())
              .set("resting_degree", rest == null ? null : rest.degree())
              .set("resting_on_chord_tone", rest == null ? null : rest.onChordTone())
              .set("landing_kind", landings.get(note.index()))
              .set("grace_before", note.graceBefore());
      set(row, ONSET, note.onset());
      set(row, LENGTH, note.length());
      add(set(row, POSITION, bar.positionOf(note.onset())));
    }
  }

  private void addGraceNotes() {
    int place = 0;
    for (GraceNote grace : solo.graceNotes()) {
      TableRow.Builder row =
          row("grace_notes")
              .set("grace_index", place++)
              .set(
                  "before_note_index",
                  grace.beforeNote() < solo.notes().size() ? grace.beforeNote() : null)
              .set("midi_concert", grace.concert().midi())
              .set("midi_written", grace.written().midi())
              .set("name_concert", grace.concert().toString())
              .set("name_written", grace.written().toString())
              .set("slashed", grace.slashed());
      add(set(row, ONSET, grace.onset()));
    }
  }

  private static String role(ChordDegree degree) {
    return degree == null ? null : degree.role().word();
  }

  private void addPhrases() {
    SoloForm form = analysis.form();
    for (Phrase phrase : analysis.phrases()) {
      Double lengthInBars = null;
      for (StatisticValue value : statistics.phrases().get(phrase.index())) {
        if (value.key().equals("phrase_length_bars")) {
          lengthInBars = value.value();
        }
        add(
            row("phrase_statistics")
                .set("phrase_index", phrase.index())
                .set("statistic", value.key())
                .set("value", value.value())
                .set("n", value.n()));
      }
      int firstBar = solo.notes().get(phrase.firstNote()).barIndex();
      int lastBar = solo.notes().get(phrase.lastNote()).barIndex();
      TableRow.Builder row =
          row("phrases")
              .set("phrase_index", phrase.index())
              .set("first_note_index", phrase.firstNote())
              .set("last_note_index", phrase.lastNote())
              .set("first_bar_number", barNumber(phrase.firstNote()))
              .set("last_bar_number", barNumber(phrase.lastNote()))
              .set("first_chorus", known(form.chorus(firstBar)))
              .set("first_bar_in_chorus", known(form.barInChorus(firstBar)))
              .set("first_section", form.sectionName(firstBar))
              .set("first_bar_in_section", known(form.barInSection(firstBar)))
              .set("last_chorus", known(form.chorus(lastBar)))
              .set("last_bar_in_chorus", known(form.barInChorus(lastBar)))
              .set("last_section", form.sectionName(lastBar))
              .set("last_bar_in_section", known(form.barInSection(lastBar)))
              .set("length_bars", lengthInBars)
              .set("tempo_qpm", solo.tempoAt(phrase.onset()).orElse(null))
              .set("lowest_midi_concert", pitches(phrase).min().orElseThrow())
              .set("highest_midi_concert", pitches(phrase).max().orElseThrow())
              .set("difficulty", difficulty(phrase))
              .set("chord_qualities", chordQualities(phrase));
      add(set(set(row, ONSET, phrase.onset()), END, phrase.end()));
    }
  }

  private List<Note> notes(Phrase phrase) {
    return solo.notes().subList(phrase.firstNote(), phrase.lastNote() + 1);
  }

  private IntStream pitches(Phrase phrase) {
    return notes(phrase).stream().mapToInt(note -> note.concert().midi());
  }

  /** As its player reads it, under the signature in force where it starts. */
  private int difficulty(Phrase phrase) {
    int signature = 0;
    for (KeyChange key : solo.keys()) {
      if (key.onset().isAfter(phrase.onset())) {
        break;
      }
      // A signature that is none of the major or minor keys takes nothing off what is read.
      signature = key.writtenFifths() == null ? 0 : key.writtenFifths();
    }
    List<WrittenNote> written =
        notes(phrase).stream().map(note -> new WrittenNote(note.length(), note.written())).toList();
    return Difficulty.of(written, signature).level();
  }

  private void addContexts() {
    List<HarmonicContext> contexts =
        HarmonicContexts.find(solo, analysis.centres(), analysis.form());
    for (int i = 0; i < contexts.size(); i++) {
      HarmonicContext context = contexts.get(i);
      Bar first = solo.barAt(context.onset());
      Bar last = lastBar(context.end());
      List<Integer> chords = new ArrayList<>();
      List<String> places = new ArrayList<>();
      for (HarmonicContext.Part part : context.parts()) {
        for (int chord = part.firstChord(); chord <= part.lastChord(); chord++) {
          chords.add(chord);
          places.add(part.place());
        }
      }
      TableRow.Builder row =
          row("contexts")
              .set("context_index", i)
              .set("kind", context.kind().word())
              .set("mode", context.mode().word())
              .set("tonic_pc", context.tonic())
              .set("above_centre", context.aboveCentre() < 0 ? null : context.aboveCentre())
              .set("first_bar_number", first.number())
              .set("first_beat", beat(first, context.onset()))
              .set("last_bar_number", last.number())
              .set("end_beat", beat(last, context.end()))
              .set("first_chorus", known(analysis.form().chorus(first.index())))
              .set("first_bar_in_chorus", known(analysis.form().barInChorus(first.index())))
              .set("chord_indexes", chords)
              .set("chord_places", places);
      add(set(set(row, ONSET, context.onset()), END, context.end()));
    }
    for (PhraseContext each :
        PhraseContext.find(solo, analysis.harmony(), analysis.phrases(), contexts)) {
      HarmonicContext context = contexts.get(each.context());
      ChordDegree degree =
          analysis.harmony().get(analysis.phrases().get(each.phrase()).lastNote()).degree();
      add(
          row("phrase_contexts")
              .set("phrase_index", each.phrase())
              .set("context_index", each.context())
              .set("kind", context.kind().word())
              .set("mode", context.mode().word())
              .set("share", each.share())
              .set("is_over", each.over())
              .set("ends_in", each.endsIn())
              .set("end_place", each.endPlace())
              .set("end_degree", each.endsIn() && degree != null ? degree.name() : null));
    }
  }

  /** The bar that a moment ends: the one before where a bar begins there. */
  private Bar lastBar(Fraction moment) {
    Bar bar = solo.barAt(moment);
    while (bar.index() > 0 && !bar.onset().isBefore(moment)) {
      bar = solo.bars().get(bar.index() - 1);
    }
    return bar;
  }

  /** Beat from 1; null in free metre. */
  private static Double beat(Bar bar, Fraction moment) {
    return bar.metre().isFree()
        ? null
        : bar.positionOf(moment).dividedBy(bar.metre().beatLength()).toDouble() + 1;
  }

  private Optional<Choruses> choruses() {
    return analysis.form().choruses();
  }

  /** Null where the form does not tell. */
  private static Integer known(int place) {
    return place == SoloForm.UNKNOWN ? null : place;
  }

  private List<String> chordQualities(Phrase phrase) {
    List<String> qualities = new ArrayList<>();
    Chord previous = null;
    for (ChordSpan span : solo.chords()) {
      if (!span.onset().isBefore(phrase.end())) {
        break;
      }
      Chord chord = span.concert();
      if (span.end().isAfter(phrase.onset())
          && (previous == null || chord.isChangeFrom(previous))) {
        qualities.add(
            chord.chordClass().map(ChordClass::quality).map(ChordQuality::word).orElse(UNKNOWN));
        previous = chord;
      }
    }
    return qualities;
  }

  private String barNumber(int noteIndex) {
    return solo.bars().get(solo.notes().get(noteIndex).barIndex()).number();
  }

  private void addLandings() {
    for (Landing landing : analysis.landings()) {
      NoteHarmony harmony = analysis.harmony().get(landing.noteIndex());
      add(
          row("landings")
              .set("note_index", landing.noteIndex())
              .set("phrase_index", landing.phraseIndex())
              .set("landing_kind", landing.kind().word())
              .set("landing_kinds", landing.kinds().stream().map(Landing.Kind::word).toList())
              .set("approach", landing.approach().word())
              .set("next_guide_tone_reached", landing.nextGuideTone())
              .set(
                  "chord_symbol",
                  harmony.chord() == null ? null : harmony.chord().concert().symbol())
              .set("chord_degree", harmony.degree() == null ? null : harmony.degree().name())
              .set("core_chord_tone", harmony.hasVerdict() ? harmony.isCoreChordTone() : null));
    }
  }

  private void addStatistics() {
    Map<String, Double> odd = compared(statistics.oddHalf());
    Map<String, Double> even = compared(statistics.evenHalf());
    for (StatisticValue value : statistics.solo()) {
      add(
          row("solo_statistics")
              .set("statistic", value.key())
              .set("value", value.value())
              .set("n", value.n())
              .set("odd_value", odd.get(value.key()))
              .set("even_value", even.get(value.key())));
    }
  }

  private static Map<String, Double> compared(List<StatisticValue> half) {
    Map<String, Double> values = new HashMap<>();
    for (StatisticValue value : half) {
      if (value.value() != null && COMPARED.contains(value.key())) {
        values.put(value.key(), value.value());
      }
    }
    return values;
  }
}
