package phrasecensus.music.aim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import phrasecensus.music.statistic.StatisticValue;

/** Invented figures of solos, and what the definitions say of them. */
class AnswersTest {
  private static final Map<String, StatisticValue> GOOD =
      Map.of(
          "in_key_share", value("in_key_share", .95, 80),
          "other_scale_excess", value("other_scale_excess", -.05, 80),
          "resting_chord_tone_share", value("resting_chord_tone_share", .9, 8),
          "eighth_or_shorter_share", value("eighth_or_shorter_share", .85, 80),
          "unbroken_time_share", value("unbroken_time_share", 0, 13),
          "scrap_time_share", value("scrap_time_share", 0, 13),
          "longest_stretch_bars", value("longest_stretch_bars", 1.75, 8));

  private static StatisticValue value(String key, double value, int n) {
    return new StatisticValue(key, value, n);
  }

  private static List<Answer> answers(AimSet set, StatisticValue... other) {
    Map<String, StatisticValue> values = new TreeMap<>(GOOD);
    for (StatisticValue each : other) {
      values.put(each.key(), each);
    }
    return Answers.of(set, 80, values::get);
  }

  private static String words(List<Answer> answers) {
    StringBuilder text = new StringBuilder();
    for (Answer answer : answers) {
      text.append(answer.question().word())
          .append(' ')
          .append(answer.verdict().word())
          .append(answer.first() ? " first " + answer.finding().word() : "")
          .append("; ");
    }
    return text.toString();
  }

  @Test
  void goodSoloMeetsEveryAimAndLeadsWithNothing() {
    assertThat(words(answers(FirstSteps.AIMS)))
        .isEqualTo("tonal_centre met; landings met; movement met; phrases met; ");
  }

  @Test
  void firstNotMetInOrderLeads() {
    assertThat(
            words(
                answers(
                    FirstSteps.AIMS,
                    value("eighth_or_shorter_share", .1, 80),
                    value("scrap_time_share", .9, 13))))
        .isEqualTo(
            "tonal_centre met; landings met; movement not_yet first long_notes; phrases not_yet; ");
  }

  @Test
  void studyChangesTheOrder() {
    AimSet set = new AimSet(FirstSteps.AIMS.aims(), List.of(Question.PHRASES));

    assertThat(
            words(
                answers(
                    set,
                    value("eighth_or_shorter_share", .1, 80),
                    value("scrap_time_share", .9, 13))))
        .startsWith("phrases not_yet first fragments; tonal_centre met;");
  }

  @Test
  void secondAimOfAQuestionDecidesWhereTheFirstIsMet() {
    Answer phrases = answers(FirstSteps.AIMS, value("scrap_time_share", .9, 13)).get(3);

    assertThat(phrases.finding()).isEqualTo(Finding.FRAGMENTS);
    assertThat(phrases.aim().statistic()).isEqualTo("scrap_time_share");
    assertThat(phrases.value()).isEqualTo(.9);
    assertThat(phrases.n()).isEqualTo(13);
  }

  @Test
  void lineThatHardlyBreathesHasNothingToLand() {
    Answer landings =
        answers(
                FirstSteps.AIMS,
                value("resting_chord_tone_share", 0, 4),
                value("unbroken_time_share", 1, 30),
                value("longest_stretch_bars", 10, 3))
            .get(1);

    assertThat(landings.verdict()).isEqualTo(Verdict.NOT_ENOUGH);
    assertThat(landings.shortage()).isEqualTo(Shortage.SELDOM_BREATHES);
  }

  @Test
  void tooFewOfWhatIsCountedCannotBeTold() {
    Answer landings = answers(FirstSteps.AIMS, value("resting_chord_tone_share", 0, 2)).get(1);

    assertThat(landings.shortage()).isEqualTo(Shortage.TOO_FEW);
    assertThat(landings.n()).isEqualTo(2);
  }

  @Test
  void fewPhrasesDoNotGateFiguresAboutNotes() {
    assertThat(
            answers(
                    FirstSteps.AIMS,
                    value("in_key_share", .5, 128),
                    value("unbroken_time_share", 1, 16),
                    value("longest_stretch_bars", 16, 1))
                .get(0)
                .verdict())
        .isEqualTo(Verdict.NOT_YET);
  }

  @Test
  void withoutANoteNothingCanBeTold() {
    List<Answer> answers = Answers.of(FirstSteps.AIMS, 0, key -> StatisticValue.undefined(key));

    assertThat(words(answers))
        .isEqualTo(
            "tonal_centre not_enough first not_enough; landings not_enough; movement not_enough;"
                + " phrases not_enough; ");
    assertThat(answers).extracting(Answer::shortage).containsOnly(Shortage.NO_NOTES);
  }

  @Test
  void fiveNotesAreTooShort() {
    assertThat(Answers.of(FirstSteps.AIMS, 5, GOOD::get))
        .extracting(Answer::shortage)
        .containsOnly(Shortage.TOO_SHORT);
  }

  @Test
  void whereNothingIsAskedThereIsNoAim() {
    assertThat(words(answers(AimSet.NONE)))
        .isEqualTo("tonal_centre no_aim; landings no_aim; movement no_aim; phrases no_aim; ");
  }

  @Test
  void aimOfATeachersOwnIsAskedLast() {
    Aim own =
        new Aim(
            Question.OWN,
            "longest_stretch_bars",
            null,
            1.0,
            Counted.STRETCHES,
            3,
            Finding.OWN,
            Finding.OWN,
            "Breathe every bar");

    assertThat(words(answers(new AimSet(List.of(own), List.of()))))
        .endsWith("phrases no_aim; own not_yet first own; ");
  }

  @Test
  void rangeWithoutAValueInItIsNoAim() {
    assertThatThrownBy(
            () ->
                new Aim(
                    Question.OWN, "x", 2.0, 1.0, Counted.NOTES, 1, Finding.OWN, Finding.OWN, ""))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
