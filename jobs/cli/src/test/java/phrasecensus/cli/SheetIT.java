package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Example sheets of the sample study, held against what inspect tells of the solos themselves. */
class SheetIT {
  private static final String NAME = "phrase-length-bars";
  private static final Pattern LISTED =
      Pattern.compile("(?m)^  (\\S+), phrase ([0-9]+): ([0-9.]+)\u00a0bars(?:, ends on (\\S+))?$");

  private static Path study;

  @TempDir private Path temporary;
  private Path into;

  /** A phrase as the command lists it. */
  private record Listed(String file, int phrase, double bars, String degree) {}

  @BeforeAll
  static void makeAStudy() {
    study = SampleStudy.folder();
  }

  @BeforeEach
  void chooseAFolder() {
    into = temporary.resolve("handout");
  }

  private CommandRun sheet(String... options) {
    List<String> all = new ArrayList<>(List.of("sheet", study.toString()));
    all.addAll(List.of(options));
    all.addAll(List.of("--into", into.toString()));
    return CommandRun.of(all.toArray(String[]::new));
  }

  private CommandRun twoBarsOnAThird(String... options) {
    List<String> all =
        new ArrayList<>(
            List.of(
                "--statistic",
                "phrase_length_bars",
                "--from",
                "1.75",
                "--to",
                "2.25",
                "--last-note",
                "3"));
    all.addAll(List.of(options));
    return sheet(all.toArray(String[]::new));
  }

  private static List<Listed> listed(CommandRun run) {
    return LISTED
        .matcher(run.out())
        .results()
        .map(
            (MatchResult m) ->
                new Listed(
                    m.group(1),
                    Integer.parseInt(m.group(2)) - 1,
                    Double.parseDouble(m.group(3)),
                    m.group(4)))
        .toList();
  }

  private static JsonNode inspected(Path file) throws IOException {
    return new ObjectMapper()
        .readTree(
            CommandRun.of("inspect", file.toString(), "--json", "--phrase-rule", "silence").out());
  }

  private static List<Integer> pitches(JsonNode score, String key) {
    List<Integer> pitches = new ArrayList<>();
    score.path("notes").forEach(note -> pitches.add(note.path(key).asInt()));
    return pitches;
  }

  /** Sounding pitches by MIDI tick. */
  private List<Integer> played() throws Exception {
    TreeMap<Long, Integer> pitches = new TreeMap<>();
    Track track = MidiSystem.getSequence(into.resolve(NAME + ".mid").toFile()).getTracks()[0];
    for (int i = 0; i < track.size(); i++) {
      MidiEvent event = track.get(i);
      if (event.getMessage() instanceof ShortMessage message
          && message.getCommand() == ShortMessage.NOTE_ON) {
        pitches.put(event.getTick(), message.getData1());
      }
    }
    return List.copyOf(pitches.values());
  }

  @Test
  void everyPhraseHasTheValueAndTheLastNoteAskedFor() {
    CommandRun run = twoBarsOnAThird();

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(listed(run))
        .hasSize(8)
        .allMatch(phrase -> phrase.bars() >= 1.75 && phrase.bars() <= 2.25)
        .allMatch(phrase -> phrase.degree().equals("3"));
    assertThat(listed(run).stream().map(Listed::file)).doesNotHaveDuplicates();
  }

  /** The sheet, read as any score, has the notes of the phrases, whole octaves apart at most. */
  @Test
  void theNotesAreThoseOfTheSolos() throws Exception {
    CommandRun run = twoBarsOnAThird();
    List<Integer> sheet = pitches(inspected(into.resolve(NAME + ".musicxml")), "midiConcert");
    int at = 0;

    for (Listed phrase : listed(run)) {
      JsonNode solo = inspected(SampleCorpus.FOLDER.resolve("corpus").resolve(phrase.file()));
      JsonNode span = solo.path("phrases").path(phrase.phrase());
      int first = span.path("firstNote").asInt();
      int last = span.path("lastNote").asInt();
      List<Integer> source = pitches(solo, "midiConcert").subList(first, last + 1);
      int octaves = sheet.get(at) - source.get(0);
      assertThat(octaves % 12).isZero();
      assertThat(sheet.subList(at, at + source.size()))
          .as(phrase.toString())
          .isEqualTo(source.stream().map(pitch -> pitch + octaves).toList());
      at += source.size();
    }

    assertThat(at).isEqualTo(sheet.size());
    assertThat(played()).isEqualTo(sheet);
  }

  /** A clarinet in B flat sounds a major second lower than written: common practice, no source. */
  @Test
  void aClarinetReadsATwoSemitonesHigherNote() throws IOException {
    twoBarsOnAThird("--for", "Bb clarinet");
    JsonNode sheet = inspected(into.resolve(NAME + ".musicxml"));

    assertThat(pitches(sheet, "midiWritten"))
        .isEqualTo(pitches(sheet, "midiConcert").stream().map(pitch -> pitch + 2).toList());
    assertThat(Files.readString(into.resolve(NAME + ".musicxml")))
        .contains("<chromatic>-2</chromatic>", "Clarinet in B♭");
  }

  @Test
  void everyPhraseHasItsChordsItsSourceAndASystem() throws IOException {
    twoBarsOnAThird("--count", "3");
    String score = Files.readString(into.resolve(NAME + ".musicxml"));

    assertThat(score.split("<print new-system=\"yes\"", -1)).hasSize(3);
    assertThat(score)
        .containsPattern("<words>1\\. [^<]+, [^<]+, bars [0-9]+–[0-9]+[^<]*</words>")
        .containsPattern("<words>3\\. ");
    assertThat(score.split("<harmony", -1).length).isGreaterThan(3);
    assertThat(score.split("<lyric ", -1)).hasSize(4);
  }

  @Test
  void theSameRequestGivesTheSameBytes() throws IOException {
    twoBarsOnAThird();
    byte[] score = Files.readAllBytes(into.resolve(NAME + ".musicxml"));
    byte[] midi = Files.readAllBytes(into.resolve(NAME + ".mid"));

    CommandRun again = twoBarsOnAThird("--force");

    assertThat(again.exitCode()).isEqualTo(ExitCode.DONE);
    assertThat(into.resolve(NAME + ".musicxml")).hasBinaryContent(score);
    assertThat(into.resolve(NAME + ".mid")).hasBinaryContent(midi);
  }

  @Test
  void aSheetThatIsThereIsNotReplaced() {
    twoBarsOnAThird();

    CommandRun again = twoBarsOnAThird();

    assertThat(again.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(again.err()).contains("it is there already. Give --force to replace it.");
  }

  /** Without bounds the middle half of the corpus is shown. */
  @Test
  void withoutBoundsTheSheetShowsWhatIsUsual() {
    CommandRun run = sheet("--statistic", "phrase_length_bars", "--only", "style=tidal modal");

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(listed(run)).isNotEmpty().allMatch(phrase -> phrase.file().contains("-tidal"));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "--statistic phrase_range --from 90 --to 99 | 3 | The nearest is",
        "--statistic phrase_range --last-note 77 | 3 | None ends so.",
        "--statistic phrase_range --from 3 --to 2 | 3 | --from is larger than --to",
        "--statistic phrase_range --only style=no | 3 | There is: headland bop, quayside swing",
        "--statistic phrase_range --only colour=red | 3 | the solos have no column colour",
        "--statistic phrase_rnge | 2 | Perhaps you mean phrase_",
        "--statistic before_rest_chord_tone_share | 2 | which no phrase has",
        "--statistic phrase_range --for bagpipe | 2 | There is: concert pitch, flute",
        "--statistic phrase_range --count 0 | 2 | It goes from 1 to 60.",
        "--statistic phrase_range --only style | 2 | Say COLUMN=VALUE."
      })
  void whatCannotBeShownIsSaidInASentence(String options, int exitCode, String said) {
    CommandRun run = sheet(options.split(" "));

    assertThat(run.exitCode()).as(run.err()).isEqualTo(exitCode);
    assertThat(run.err()).contains(said).doesNotContain("Exception").hasLineCount(1);
    assertThat(into).doesNotExist();
  }

  @Test
  void aStudyThatKeepsExcerptsOutHasNoSheet() throws IOException {
    SampleCorpus.firstSolos(temporary.resolve("corpus"), 2);
    Path file = temporary.resolve("study.yaml");
    Files.writeString(file, "name: quiet\ncorpus: corpus\nreport: {excerpts: false}\n");
    Path quiet = temporary.resolve("quiet");
    CommandRun.of("study", file.toString(), "--into", quiet.toString());

    CommandRun run =
        CommandRun.of(
            "sheet", quiet.toString(), "--statistic", "phrase_range", "--into", into.toString());

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err()).contains("keeps excerpts out").hasLineCount(1);
  }

  /** Twelve keys: twelve first notes, and the same intervals in each. */
  @Test
  void inAllKeysAPhraseComesTwelveTimes() throws IOException {
    CommandRun run =
        asked("--where", "bars 2", "--where", "last-note third", "--key", "all", "--count", "1");

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    List<Integer> line = pitches(inspected(into.resolve("phrases.musicxml")), "midiConcert");
    int notes = line.size() / 12;
    List<Integer> first = line.subList(0, notes);
    List<Integer> starts = new ArrayList<>();
    for (int key = 0; key < 12; key++) {
      List<Integer> moved = line.subList(key * notes, (key + 1) * notes);
      int by = moved.get(0) - first.get(0);
      assertThat(moved).isEqualTo(first.stream().map(pitch -> pitch + by).toList());
      starts.add(moved.get(0) % 12);
    }
    assertThat(starts).doesNotHaveDuplicates();
    // Fifths down: seven semitones lower each time, whole octaves apart.
    assertThat(Math.floorMod(starts.get(1) - starts.get(0), 12)).isEqualTo(5);
  }

  @Test
  void inOneKeyEverySignatureIsThatKeys() throws IOException {
    asked(
        "--where", "over ii-V-I major", "--where", "last-note third", "--key", "F", "--count", "4");

    assertThat(Files.readString(into.resolve("phrases.musicxml")))
        .containsPattern("in F( minor)?</words>")
        .doesNotContainPattern("<fifths>(?!-1|-4)");
  }

  /** Every second stretch of bars is empty and as long as the phrase before it. */
  @Test
  void answersAreEmptyBarsUnderTheSameChords() throws IOException {
    asked("--where", "bars 2", "--where", "last-note third", "--count", "3");
    String alone = Files.readString(into.resolve("phrases.musicxml"));
    asked(
        "--where", "bars 2", "--where", "last-note third", "--count", "3", "--answers", "--force");
    String withAnswers = Files.readString(into.resolve("phrases.musicxml"));

    assertThat(withAnswers.split("<measure ", -1).length - 1)
        .isEqualTo(2 * (alone.split("<measure ", -1).length - 1));
    assertThat(withAnswers.split("Now you: ", -1)).hasSize(4);
    assertThat(withAnswers.split("<pitch>", -1)).hasSameSizeAs(alone.split("<pitch>", -1));
    assertThat(withAnswers.split("<root>", -1).length - 1)
        .isEqualTo(2 * (alone.split("<root>", -1).length - 1));
  }

  /**
   * Written range of a trumpet 54 to 84, on the second level 56 to 77: common practice, no source.
   */
  @Test
  void aLevelHasItsRangeAndWhatIsBeyondItIsCounted() throws IOException {
    CommandRun run =
        asked("--where", "phrase_range 12..", "--for", "trumpet", "--level", "3", "--count", "40");

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(run.out()).containsPattern("(?m)^Left out: .*[0-9]+ harder than level 3");
    assertThat(pitches(inspected(into.resolve("phrases.musicxml")), "midiWritten"))
        .allMatch(pitch -> pitch >= 55 && pitch <= 80);
  }

  @Test
  void aSheetOfNothingThatSuitsIsRefused() {
    CommandRun run = asked("--where", "phrase_range 19..", "--for", "trumpet", "--level", "1");

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err())
        .containsPattern(
            "no phrase suits. Left out: [0-9]+ beyond the range of trumpet in B♭ on level 1")
        .hasLineCount(1);
    assertThat(into).doesNotExist();
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "--key H | Say tune, all, or a tonic",
        "--level 6 | It goes from 1 to 5.",
        "--key all --count 6 | Say --count 5 or less.",
        "--statistic phrase_range | one of the two",
        "--from 3 | go with --statistic"
      })
  void whatASheetOfConditionsCannotHaveIsSaid(String options, String said) {
    List<String> all = new ArrayList<>(List.of("--where", "pickup"));
    all.addAll(List.of(options.split(" ")));

    CommandRun run = asked(all.toArray(String[]::new));

    assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(run.err()).contains(said);
  }

  /** The page to print has every phrase, an empty staff after it, and the rights once. */
  @Test
  void thePageToPrintHoldsWhatTheScoreHolds() throws IOException {
    asked("--where", "bars 2", "--where", "last-note third", "--count", "3", "--answers");
    String page = Files.readString(into.resolve("phrases.html"));

    assertThat(page.split("<figure ", -1)).hasSize(7);
    assertThat(page.split("to be filled by the player", -1)).hasSizeGreaterThan(6);
    assertThat(page.split("Solos under copyright", -1)).hasSize(2);
    assertThat(page.split("data:audio/midi", -1)).hasSize(4);
    assertThat(page).doesNotContain("A norm describes");
  }

  /** Empty bars are empty in the score too: their rests are there and not printed. */
  @Test
  void theRestsOfEmptyBarsAreNotPrinted() throws IOException {
    asked("--where", "bars 2", "--where", "last-note third", "--count", "3", "--answers");
    String score = Files.readString(into.resolve("phrases.musicxml"));

    assertThat(score.split("<note print-object=\"no\"", -1)).hasSizeGreaterThan(6);
  }

  /**
   * Twelve keys for an instrument in E flat bring double accidentals, unless they are respelled.
   */
  @Test
  void nothingOfASheetHasADoubleAccidental() throws IOException {
    asked("--where", "last-note third", "--for", "alto saxophone", "--key", "all", "--count", "5");

    assertThat(Files.readString(into.resolve("phrases.musicxml")))
        .doesNotContainPattern("-alter>-?2<")
        .doesNotContain("<alter>-2</alter>", "<alter>2</alter>");
  }

  private CommandRun asked(String... options) {
    return sheet(options);
  }
}
