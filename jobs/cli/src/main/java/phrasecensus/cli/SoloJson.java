package phrasecensus.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.form.SoloForm;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.statistic.Contour;
import phrasecensus.music.statistic.OutsideNotes;
import phrasecensus.readers.ReadResult;

/** A solo and what was heard in it as plain maps for JSON; times as fractions of a quarter note. */
final class SoloJson {
  private SoloJson() {}

  static Map<String, Object> of(SoloAnalysis analysis, ReadResult result) {
    Solo solo = analysis.solo();
    Map<String, Object> root = new LinkedHashMap<>();
    root.put("title", solo.description().title());
    root.put("creators", solo.description().creators());
    root.put("part", solo.description().partId());
    root.put("voice", solo.description().voice());
    root.put("staff", solo.description().staff());
    root.put("partReason", solo.description().partReason());
    root.put("chordSource", solo.description().chordSource());
    root.put("notesInStacksLeftOut", result.notesInStacksLeftOut());
    root.put("notesInOtherVoicesLeftOut", result.notesInOtherVoicesLeftOut());
    root.put("bars", list(solo.bars(), bar -> bar(analysis.form(), bar)));
    root.put("chords", list(solo.chords(), SoloJson::chord));
    root.put(
        "keys",
        list(
            solo.keys(),
            key ->
                fields(
                    "onset", key.onset().toString(),
                    "fifths", key.concertFifths(),
                    "fifthsWritten", key.writtenFifths())));
    root.put(
        "graceNotes",
        list(
            solo.graceNotes(),
            grace ->
                fields(
                    "onset", grace.onset().toString(),
                    "pitch", grace.concert().toString(),
                    "pitchWritten", grace.written().toString())));
    root.put(
        "tonalCentres",
        list(
            analysis.centres(),
            span ->
                fields(
                    "onset", span.onset().toString(),
                    "end", span.end().toString(),
                    "tonic", span.centre().isKnown() ? span.centre().tonic() : null,
                    "mode", span.centre().mode().word(),
                    "source", span.source().word())));
    Set<Integer> unexplained = OutsideNotes.unexplained(analysis);
    root.put(
        "notes",
        list(solo.notes(), note -> note(analysis, note, unexplained.contains(note.index()))));
    root.put("phraseRule", PhraseRules.text(analysis.rule().rule()));
    root.put("phraseRuleReason", analysis.rule().reason().word());
    root.put(
        "phrases",
        list(
            analysis.phrases(),
            phrase ->
                fields(
                    "firstNote", phrase.firstNote(),
                    "lastNote", phrase.lastNote(),
                    "onset", phrase.onset().toString(),
                    "end", phrase.end().toString(),
                    "parsons", parsons(solo, phrase))));
    root.put("landings", list(analysis.landings(), landing -> landing(analysis, landing)));
    root.put(
        "problems",
        list(
            result.problems(),
            problem ->
                fields(
                    "part", problem.part(),
                    "bar", problem.bar(),
                    "code", problem.code(),
                    "severity", problem.severity(),
                    "found", problem.found(),
                    "done", problem.done())));
    return root;
  }

  /** Up, down, repeated: the form in which collections of melodies are searched. */
  private static String parsons(Solo solo, Phrase phrase) {
    return Contour.parsons(
        solo.notes().subList(phrase.firstNote(), phrase.lastNote() + 1).stream()
            .mapToInt(Note::midi)
            .toArray());
  }

  private static Map<String, Object> bar(SoloForm form, Bar bar) {
    return fields(
        "number", bar.number(),
        "onset", bar.onset().toString(),
        "length", bar.length().toString(),
        "metre", bar.metre().text(),
        "pickup", bar.pickup(),
        "chorus", known(form.chorus(bar.index())),
        "barInChorus", known(form.barInChorus(bar.index())),
        "section", form.sectionName(bar.index()),
        "barInSection", known(form.barInSection(bar.index())));
  }

  private static Integer known(int place) {
    return place == SoloForm.UNKNOWN ? null : place;
  }

  private static Map<String, Object> chord(ChordSpan span) {
    return fields(
        "onset", span.onset().toString(),
        "end", span.end().toString(),
        "symbol", span.concert().symbol(),
        "pitchClasses", span.concert().pitchClasses());
  }

  private static Map<String, Object> note(SoloAnalysis analysis, Note note, boolean unexplained) {
    NoteHarmony harmony = analysis.harmony().get(note.index());
    return fields(
        "onset", note.onset().toString(),
        "length", note.length().toString(),
        "midiConcert", note.concert().midi(),
        "midiWritten", note.written().midi(),
        "degree", degree(harmony),
        "unexplained", unexplained);
  }

  private static Map<String, Object> landing(SoloAnalysis analysis, Landing landing) {
    return fields(
        "note", landing.noteIndex(),
        "kind", landing.kind().word(),
        "kinds", landing.kinds().stream().map(Landing.Kind::word).toList(),
        "approach", landing.approach().word(),
        "degree", degree(analysis.harmony().get(landing.noteIndex())),
        "nextGuideToneReached", landing.nextGuideTone());
  }

  /** What a note is over its chord; null without one. */
  private static String degree(NoteHarmony harmony) {
    return harmony.degree() == null ? null : harmony.degree().name();
  }

  private static <T> List<Map<String, Object>> list(
      List<T> items, java.util.function.Function<T, Map<String, Object>> each) {
    List<Map<String, Object>> mapped = new ArrayList<>();
    items.forEach(item -> mapped.add(each.apply(item)));
    return mapped;
  }

  private static Map<String, Object> fields(Object... namesAndValues) {
    Map<String, Object> fields = new LinkedHashMap<>();
    for (int i = 0; i < namesAndValues.length; i += 2) {
      fields.put((String) namesAndValues[i], namesAndValues[i + 1]);
    }
    return fields;
  }
}
