package phrasecensus.grammar;

import static phrasecensus.grammar.ElementRule.group;
import static phrasecensus.grammar.ElementRule.groups;
import static phrasecensus.grammar.ElementRule.value;
import static phrasecensus.grammar.ElementRule.values;

import java.util.List;
import java.util.stream.Stream;
import phrasecensus.music.chord.ChordKind;

/**
 * The elements and attributes of MusicXML 4.0 that are read, with their valid values (W3C MusicXML
 * 4.0, schema/musicxml.xsd) and what is done with an invalid one.
 */
public final class ScoreElements {
  public static final String PARTWISE = "score-partwise";
  public static final String TIMEWISE = "score-timewise";

  private static final String LEFT_OUT = "it is left out";
  private static final String NO_PITCH = "the note is kept as an onset without pitch";
  private static final String BY_TYPE = "the length is taken from the note type";
  private static final String IGNORED = "it is ignored";

  private static final ValueRule TEXT = ValueRule.TEXT;
  private static final ValueRule YES_NO = ValueRule.words("yes", "no");
  private static final ValueRule START_STOP = ValueRule.words("start", "stop");
  private static final ValueRule START_STOP_CONTINUE = ValueRule.words("start", "stop", "continue");
  private static final ValueRule HALIGN = ValueRule.words("left", "center", "right");
  private static final ValueRule STEP = ValueRule.words("A", "B", "C", "D", "E", "F", "G");
  private static final ValueRule ALTER = ValueRule.decimal(-12, 12);
  private static final ValueRule DURATION = ValueRule.decimal(0, 99_999_999);
  private static final ValueRule OFFSET = ValueRule.decimal(-99_999_999, 99_999_999);
  private static final ValueRule NUMBER = ValueRule.whole(1, 99);
  private static final ValueRule NOTE_TYPE =
      ValueRule.words(
          "eighth", "quarter", "16th", "half", "whole", "32nd", "64th", "breve", "long", "maxima",
          "128th", "256th", "512th", "1024th");
  private static final ValueRule NOTEHEAD =
      ValueRule.words(
          "slash",
          "triangle",
          "diamond",
          "square",
          "cross",
          "x",
          "circle-x",
          "inverted triangle",
          "arrow down",
          "arrow up",
          "circled",
          "slashed",
          "back slashed",
          "normal",
          "cluster",
          "circle dot",
          "left triangle",
          "rectangle",
          "none",
          "do",
          "re",
          "mi",
          "fa",
          "fa up",
          "so",
          "la",
          "ti",
          "other");
  private static final ValueRule BAR_STYLE =
      ValueRule.words(
          "regular",
          "dotted",
          "dashed",
          "heavy",
          "light-light",
          "light-heavy",
          "heavy-light",
          "heavy-heavy",
          "tick",
          "short",
          "none");
  private static final ValueRule KIND =
      ValueRule.words(
          Stream.of(ChordKind.values()).map(ChordKind::musicXmlName).toArray(String[]::new));

  /** Articulations without a text or a kind of their own (MusicXML 4.0, element articulations). */
  public static final List<String> PLAIN_ARTICULATIONS =
      List.of(
          "accent",
          "strong-accent",
          "staccato",
          "tenuto",
          "detached-legato",
          "staccatissimo",
          "spiccato",
          "scoop",
          "plop",
          "doit",
          "falloff",
          "stress",
          "unstress",
          "soft-accent");

  private ScoreElements() {}

  /** The rule of a document's root, or null when it is no score. */
  public static ElementRule root(String name) {
    return switch (name) {
      case PARTWISE -> PARTWISE_ROOT;
      case TIMEWISE -> TIMEWISE_ROOT;
      default -> null;
    };
  }

  private static final ElementRule PARTWISE_ROOT =
      header(group(PARTWISE))
          .with(groups("part", contents(bar("measure"))).attribute("id", TEXT, LEFT_OUT));
  private static final ElementRule TIMEWISE_ROOT =
      header(group(TIMEWISE))
          .with(bar("measure").with(contents(groups("part")).attribute("id", TEXT, LEFT_OUT)));

  private static ElementRule bar(String name) {
    return groups(name)
        .attribute("number", TEXT, LEFT_OUT)
        .attribute("implicit", YES_NO, "the bar is read as a numbered one");
  }

  private static ElementRule header(ElementRule root) {
    return root.with(
        group("work", value("work-title", TEXT, "")),
        value("movement-title", TEXT, ""),
        group(
            "identification",
            values("creator", TEXT, "").attribute("type", TEXT, ""),
            group(
                "miscellaneous",
                values("miscellaneous-field", TEXT, "").attribute("name", TEXT, ""))),
        group("defaults", group("concert-score")),
        groups(
                "credit",
                values("credit-type", TEXT, ""),
                values("credit-words", TEXT, "")
                    .attribute("justify", HALIGN, IGNORED)
                    .attribute("halign", HALIGN, IGNORED)
                    .attribute("font-size", TEXT, ""))
            .attribute("page", ValueRule.whole(1, 9999), "page 1 is assumed"),
        group(
            "part-list",
            groups(
                    "score-part",
                    value("part-name", TEXT, ""),
                    groups(
                            "score-instrument",
                            value("instrument-name", TEXT, ""),
                            value("instrument-sound", TEXT, ""),
                            group("solo"))
                        .attribute("id", TEXT, ""),
                    groups(
                        "midi-instrument",
                        value("midi-channel", ValueRule.whole(1, 16), IGNORED),
                        value("midi-unpitched", ValueRule.whole(1, 128), IGNORED)))
                .attribute("id", TEXT, "")));
  }

  private static ElementRule contents(ElementRule measure) {
    return measure.with(
        note(),
        groups("backup", value("duration", DURATION, "the step back is left out")),
        groups("forward", value("duration", DURATION, "the step forward is left out")),
        attributes(),
        harmony(),
        direction(),
        sound(groups("sound")),
        barline());
  }

  private static ElementRule note() {
    return groups(
            "note",
            group("grace").attribute("slash", YES_NO, IGNORED),
            group("cue"),
            group("chord"),
            group(
                    "pitch",
                    value("step", STEP, NO_PITCH),
                    value("alter", ALTER, "the note is read as natural"),
                    value("octave", ValueRule.whole(-1, 10), NO_PITCH))
                .requiringAllBut("alter"),
            group("unpitched"),
            group("rest").attribute("measure", YES_NO, IGNORED),
            value("duration", DURATION, BY_TYPE),
            groups("tie")
                .attribute("type", START_STOP, "the tie is left out")
                .attribute("time-only", ValueRule.passes(), IGNORED),
            value("voice", TEXT, ""),
            value("type", NOTE_TYPE, "the written note type is ignored"),
            groups("dot"),
            group(
                "time-modification",
                value("actual-notes", ValueRule.whole(1, 9999), "the tuplet is ignored"),
                value("normal-notes", ValueRule.whole(1, 9999), "the tuplet is ignored"),
                value("normal-type", NOTE_TYPE, IGNORED)),
            value("notehead", NOTEHEAD, "it is read as a normal notehead")
                .attribute("parentheses", YES_NO, IGNORED),
            value("staff", NUMBER, "the first staff is assumed"),
            groups(
                "lyric",
                values("syllabic", ValueRule.words("single", "begin", "end", "middle"), IGNORED),
                values("text", TEXT, "")),
            groups(
                "notations",
                groups("tied")
                    .attribute(
                        "type",
                        ValueRule.words("start", "stop", "continue", "let-ring"),
                        "the tie is left out"),
                groups("slur")
                    .attribute("type", START_STOP_CONTINUE, "the slur is left out")
                    .attribute("number", NUMBER, "number 1 is assumed"),
                groups(
                    "articulations",
                    Stream.concat(
                            PLAIN_ARTICULATIONS.stream(),
                            Stream.of("breath-mark", "caesura", "other-articulation"))
                        .map(ElementRule::groups)
                        .toArray(ElementRule[]::new)),
                groups("fermata")))
        .attribute("time-only", ValueRule.passes(), IGNORED)
        .attribute("print-object", YES_NO, "the note is read as a printed one");
  }

  private static ElementRule attributes() {
    return groups(
        "attributes",
        value("divisions", ValueRule.decimal(0, 9_999_999), "the last valid divisions go on"),
        groups(
                "key",
                value("fifths", ValueRule.whole(-14, 14), "the key signature is left out"),
                value("mode", TEXT, ""),
                values("key-step", STEP, LEFT_OUT),
                values("key-alter", ALTER, LEFT_OUT))
            .attribute("number", NUMBER, "all staves are assumed"),
        groups(
                "time",
                values("beats", ValueRule.sum(), "the time signature is left out"),
                values("beat-type", ValueRule.sum(), "the time signature is left out"),
                value("senza-misura", TEXT, ""))
            .attribute("number", NUMBER, "all staves are assumed"),
        value("staves", ValueRule.whole(0, 99), "one staff is assumed"),
        groups(
                "clef",
                value(
                    "sign",
                    ValueRule.words("G", "F", "C", "percussion", "TAB", "jianpu", "none"),
                    IGNORED),
                value("line", ValueRule.whole(1, 5), "the usual line is assumed"),
                value("clef-octave-change", ValueRule.whole(-2, 2), "no octave is assumed"))
            .attribute("number", NUMBER, IGNORED),
        groups(
                "transpose",
                value("diatonic", ValueRule.whole(-99, 99), "the usual interval is assumed"),
                value("chromatic", ValueRule.decimal(-99, 99), "the transposition is left out"),
                value("octave-change", ValueRule.whole(-9, 9), "no octave is assumed"),
                group("double"))
            .attribute("number", NUMBER, "all staves are assumed"),
        groups(
                "measure-style",
                group("multiple-rest"),
                value("measure-repeat", TEXT, "").attribute("type", START_STOP, IGNORED),
                group("beat-repeat").attribute("type", START_STOP, IGNORED),
                group("slash").attribute("type", START_STOP, "the slashes are ignored"))
            .attribute("number", NUMBER, "all staves are assumed"));
  }

  private static ElementRule harmony() {
    return groups(
            "harmony",
            groups(
                "root",
                value("root-step", STEP, "the chord is kept with an unknown root"),
                value("root-alter", ALTER, "the root is read as natural")),
            groups(
                "numeral",
                value("numeral-root", ValueRule.whole(1, 7), "the chord's root is unknown")
                    .attribute("text", TEXT, ""),
                value("numeral-alter", ALTER, "the numeral is read as unaltered"),
                group(
                    "numeral-key",
                    value("numeral-fifths", ValueRule.whole(-14, 14), "the key signature is used"),
                    value(
                        "numeral-mode",
                        ValueRule.words(
                            "major", "minor", "natural minor", "melodic minor", "harmonic minor"),
                        "major is assumed"))),
            values("function", TEXT, ""),
            values("kind", KIND, "").attribute("text", TEXT, ""),
            values("inversion", ValueRule.whole(0, 12), "the bass is left open"),
            groups(
                "bass",
                value("bass-step", STEP, "the bass is left out"),
                value("bass-alter", ALTER, "the bass is read as natural")),
            groups(
                "degree",
                value("degree-value", ValueRule.whole(1, 13), "the degree is left out"),
                value("degree-alter", ALTER, "the degree is read as unaltered"),
                value(
                    "degree-type",
                    ValueRule.words("add", "alter", "subtract"),
                    "the degree is left out")),
            value("offset", OFFSET, "the chord is placed where its element stands"),
            value("staff", NUMBER, "the first staff is assumed"))
        .attribute(
            "type",
            ValueRule.words("explicit", "implied", "alternate"),
            "the chord is read as an explicit one");
  }

  private static ElementRule direction() {
    return groups(
        "direction",
        groups(
            "direction-type",
            values("rehearsal", TEXT, ""),
            groups("segno"),
            groups("coda"),
            values("words", TEXT, ""),
            group("dashes")
                .attribute("type", START_STOP_CONTINUE, "the dashes are left out")
                .attribute("number", NUMBER, "number 1 is assumed"),
            group("bracket")
                .attribute("type", START_STOP_CONTINUE, "the bracket is left out")
                .attribute("number", NUMBER, "number 1 is assumed"),
            group(
                "metronome",
                values("beat-unit", NOTE_TYPE, "the tempo mark is left out"),
                groups("beat-unit-dot"),
                value("per-minute", TEXT, ""))),
        value("offset", OFFSET, "the direction is placed where its element stands"),
        value("staff", NUMBER, "the first staff is assumed"),
        sound(group("sound")));
  }

  private static ElementRule sound(ElementRule sound) {
    return sound
        .with(value("offset", OFFSET, IGNORED))
        .attribute("tempo", ValueRule.decimal(0, 9999), "the tempo is left out")
        .attribute("dacapo", YES_NO, "the jump is left out")
        .attribute("segno", TEXT, "")
        .attribute("dalsegno", TEXT, "")
        .attribute("coda", TEXT, "")
        .attribute("tocoda", TEXT, "")
        .attribute("forward-repeat", YES_NO, "the repeat is left out")
        .attribute("fine", TEXT, "")
        .attribute("time-only", ValueRule.passes(), IGNORED);
  }

  private static ElementRule barline() {
    return groups(
            "barline",
            value("bar-style", BAR_STYLE, "a plain bar line is assumed"),
            group("segno"),
            group("coda"),
            group("ending")
                .attribute("number", ValueRule.passes(), "the ending is left out")
                .attribute(
                    "type",
                    ValueRule.words("start", "stop", "discontinue"),
                    "the ending is left out"),
            group("repeat")
                .attribute(
                    "direction", ValueRule.words("backward", "forward"), "the repeat is left out")
                .attribute("times", ValueRule.whole(0, 999), "two passes are assumed")
                .attribute("after-jump", YES_NO, IGNORED))
        .attribute(
            "location",
            ValueRule.words("right", "left", "middle"),
            "the right end of the bar is assumed")
        .attribute("segno", TEXT, "")
        .attribute("coda", TEXT, "");
  }
}
