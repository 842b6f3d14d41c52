package phrasecensus.report.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.report.wording.Numbers;

class ValueMixTest {
  private static ValueMix.Entry entry(double half, double quarter, double eighth, double other) {
    Map<String, Double> shares = new LinkedHashMap<>();
    shares.put("half", half);
    shares.put("quarter", quarter);
    shares.put("eighth", eighth);
    shares.put("other", other);
    return new ValueMix.Entry("a solo", shares, "n\u00a0100 notes");
  }

  @Test
  void rareValuesAreDrawnTogetherWithTheOtherOnes() {
    ValueMix.Entry entry = entry(0.01, 0.29, 0.68, 0.02);

    List<String> drawn = ValueMix.drawn(List.of(entry));

    assertThat(drawn).containsExactly("quarter", "eighth", "other");
    assertThat(ValueMix.rest(entry, drawn)).isEqualTo(0.03);
  }

  @Test
  void aBarFillsTheWidth() {
    Picture picture =
        new ValueMix(new Numbers(Locale.ENGLISH))
            .picture("m", "Mix", List.of(entry(0.1, 0.2, 0.5, 0.2)));

    List<String> edges =
        picture.marks().stream()
            .filter(Mark.Area.class::isInstance)
            .map(Mark.Area.class::cast)
            .map(area -> area.x() + "+" + area.width())
            .toList();
    assertThat(edges).containsExactly("0%+10%", "10%+20%", "30%+50%", "80%+20%");
  }

  @Test
  void theDescriptionSaysEveryShare() {
    Picture picture =
        new ValueMix(new Numbers(Locale.ENGLISH))
            .picture("m", "Mix", List.of(entry(0.1, 0.2, 0.5, 0.2)));

    assertThat(picture.description())
        .isEqualTo(
            "a solo (n\u00a0100 notes): half 10\u00a0%, quarter 20\u00a0%, eighth 50\u00a0%, other"
                + " values 20\u00a0%.");
  }
}
