package phrasecensus.music.pattern;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.pattern.FigureChoice.Candidate;

/** Invented figures; which of them are worth showing is common practice, no source. */
class FigureChoiceTest {
  private static IntervalPattern pattern(String intervals) {
    return new IntervalPattern(
        Arrays.stream(intervals.split(" ")).map(Integer::valueOf).toList(), List.of());
  }

  private static PackedPattern packed(String text) {
    long[] codes = pattern(text).intervals().stream().mapToLong(PackedPattern::code).toArray();
    return PackedPattern.of(codes, null, 0, codes.length);
  }

  private static Candidate candidate(String intervals, int solos, int windows) {
    return new Candidate(packed(intervals), solos, windows);
  }

  private static List<String> texts(List<Candidate> chosen) {
    return chosen.stream().map(each -> each.pattern().unpacked().text()).toList();
  }

  @ParameterizedTest(name = "{0}: {2}")
  @CsvSource({
    "0 0 0 0, false, one note again and again",
    "1 -1 1 -1, false, a trill",
    "12 -12 12 -12, false, octaves up and down have two pitches",
    "-1 -1 -1 -1, false, a chromatic run",
    "2 2 1 2, false, a scale upwards",
    "-2 -1 -2 -2, false, a scale downwards",
    "2 0 2 1, false, a scale with a repeated note",
    "0 0 0 7 -2, false, more repeated notes than moves",
    "0 0 4 3, true, as many repeated notes as moves",
    "4 3 4 3, true, an arpeggio in one direction",
    "1 -1 -2 -2, true, a turn into a scale",
    "-1 2 1 -3, true, a double neighbour",
  })
  void trivialPatternsAreNoFigures(String intervals, boolean figure, String why) {
    assertThat(pattern(intervals).isFigure()).as(why).isEqualTo(figure);
  }

  @Test
  void aPartIsARowOfTheSameIntervals() {
    IntervalPattern part = pattern("2 -3");

    assertThat(part.isPartOf(pattern("1 2 -3 4"))).isTrue();
    assertThat(part.isPartOf(pattern("2 1 -3 4"))).isFalse();
    assertThat(pattern("1 2 -3 4").isPartOf(part)).isFalse();
  }

  @Test
  void aCorpusShowsTheTwoOfEachLengthThatMostSolosShare() {
    assertThat(
            texts(
                FigureChoice.shared(
                    List.of(
                        candidate("3 -1 3 -2", 4, 9),
                        candidate("5 -1 5 -2", 7, 7),
                        candidate("7 -1 7 -2", 4, 8),
                        candidate("6 -1 6 -2 6", 5, 5),
                        candidate("0 0 0 0", 60, 900)))))
        .containsExactly("+5 -1 +5 -2", "+6 -1 +6 -2 +6", "+3 -1 +3 -2");
  }

  @Test
  void whatOneSoloAloneHoldsIsNotShared() {
    assertThat(FigureChoice.shared(List.of(candidate("3 -1 3 -2", 1, 9)))).isEmpty();
  }

  @Test
  void aPartOfALongerFigureIsShownWhereTwiceAsManySolosHoldIt() {
    List<Candidate> often = List.of(candidate("3 -1 3 -2", 6, 6), candidate("3 -1 3 -2 5", 3, 3));
    List<Candidate> seldom = List.of(candidate("3 -1 3 -2", 5, 9), candidate("3 -1 3 -2 5", 3, 3));

    assertThat(texts(FigureChoice.shared(often))).containsExactly("+3 -1 +3 -2", "+3 -1 +3 -2 +5");
    assertThat(texts(FigureChoice.shared(seldom))).containsExactly("+3 -1 +3 -2 +5");
  }

  @Test
  void aStudentShowsTheFiguresThatTakeUpMostNotes() {
    assertThat(
            texts(
                FigureChoice.own(
                    List.of(
                        candidate("3 -1 3 -2", 1, 3), // 15 notes
                        candidate("5 -1 5 -2 5", 2, 2), // 12 notes
                        candidate("7 -1 7 -2", 1, 1), // once alone is no habit
                        candidate("3 -1 3 -2 8", 1, 2), // holds the first
                        candidate("8 -1 8 -2", 2, 2), // 10 notes
                        candidate("9 -1 9 -2", 2, 2))))) // 10 notes, later in order
        .containsExactly("+3 -1 +3 -2", "+5 -1 +5 -2 +5", "+8 -1 +8 -2");
  }

  @Test
  void noCandidatesGiveNoFigures() {
    assertThat(FigureChoice.shared(List.of())).isEmpty();
    assertThat(FigureChoice.own(List.of())).isEmpty();
  }

  /** C D E C D E C, in which the figure overlaps itself, and a part of it is looked for too. */
  @Test
  void everyPlaceOfAFigureIsFoundAtAnyPitch() {
    FigureSearch search = new FigureSearch(List.of(packed("2 2 -4 2"), packed("2 -4 2 2 -4")));

    assertThat(search.places(new int[] {60, 62, 64, 60, 62, 64, 60, 62}))
        .extracting(
            place -> place.pattern().unpacked().text() + " " + place.first() + "-" + place.last())
        .containsExactly("+2 +2 -4 +2 0-4", "+2 -4 +2 +2 -4 1-6", "+2 +2 -4 +2 3-7");
    assertThat(search.places(new int[] {67, 69, 71, 67, 69})).hasSize(1);
    assertThat(search.places(new int[] {60})).isEmpty();
    assertThat(search.places(new int[] {})).isEmpty();
  }
}
