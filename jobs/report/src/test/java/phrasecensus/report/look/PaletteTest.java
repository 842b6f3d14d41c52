package phrasecensus.report.look;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Contrast as WCAG 2.2 defines it (W3C Recommendation, "relative luminance" and "contrast ratio"),
 * and the least values of its success criteria 1.4.3 and 1.4.11.
 */
class PaletteTest {
  private static final List<Palette> GROUNDS = List.of(Palette.PAPER, Palette.PANEL, Palette.BAND);

  @Test
  void blackOnWhiteIsTwentyOneToOne() {
    assertThat(contrast("#000000", "#ffffff")).isCloseTo(21, within(1e-9));
  }

  /** #767676 is the lightest grey that passes 4.5 to 1 on white: common practice, no source. */
  @Test
  void theGreyThatJustPassesOnWhitePasses() {
    assertThat(contrast("#767676", "#ffffff")).isBetween(4.5, 4.6);
    assertThat(contrast("#777777", "#ffffff")).isLessThan(4.5);
  }

  @ParameterizedTest
  @EnumSource(Palette.class)
  void wordsAndMarksStandOutFromEveryGround(Palette colour) {
    double least =
        switch (colour.use()) {
          case TEXT -> 4.5;
          case GRAPHIC -> 3;
          case GROUND, DECORATION -> 1;
        };

    for (Palette ground : GROUNDS) {
      assertThat(contrast(colour.light(), ground.light()))
          .as("light %s", ground)
          .isGreaterThanOrEqualTo(least);
      assertThat(contrast(colour.dark(), ground.dark()))
          .as("dark %s", ground)
          .isGreaterThanOrEqualTo(least);
    }
  }

  /** The outline tells areas of the note-value mix from the ground where their fill does not. */
  @Test
  void outlinesOfNoteValuesStandOut() {
    for (Palette ground : GROUNDS) {
      assertThat(contrast(Palette.INK.light(), ground.light())).isGreaterThan(3);
      assertThat(contrast(Palette.INK.dark(), ground.dark())).isGreaterThan(3);
    }
  }

  @Test
  void shorterNoteValuesAreFartherFromThePaper() {
    List<Palette> values =
        Arrays.stream(Palette.values()).filter(p -> p.name().startsWith("VALUE_")).toList();

    for (Function<Palette, String> paper :
        List.<Function<Palette, String>>of(Palette::light, Palette::dark)) {
      for (int i = 1; i < values.size(); i++) {
        assertThat(contrast(paper.apply(values.get(i)), paper.apply(Palette.PAPER)))
            .as("%s after %s", values.get(i), values.get(i - 1))
            .isGreaterThan(
                1.15 * contrast(paper.apply(values.get(i - 1)), paper.apply(Palette.PAPER)));
      }
    }
  }

  private static double contrast(String one, String other) {
    double a = luminance(one);
    double b = luminance(other);
    return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  }

  private static double luminance(String colour) {
    double[] linear = new double[3];
    for (int i = 0; i < 3; i++) {
      double part = Integer.parseInt(colour.substring(1 + 2 * i, 3 + 2 * i), 16) / 255.0;
      linear[i] = part <= 0.04045 ? part / 12.92 : Math.pow((part + 0.055) / 1.055, 2.4);
    }
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
  }
}
