package phrasecensus.report.wording;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class FileTextTest {
  @Test
  void nullBecomesTheEmptyText() {
    assertThat(FileText.printable(null)).isEmpty();
  }

  @Test
  void lettersOfEveryScriptStay() {
    assertThat(FileText.printable("Blues \u05d0\u05d1 \u4e2d\u6587 \ud834\udd1e"))
        .isEqualTo("Blues \u05d0\u05d1 \u4e2d\u6587 \ud834\udd1e");
  }

  @Test
  void controlCharactersAndHalfPairsGo() {
    assertThat(FileText.printable("a\u0000b\u0007c\ud834d\ufffe")).isEqualTo("a b cd");
  }

  @Test
  void whiteSpaceBecomesSingleSpaces() {
    assertThat(FileText.printable("  a \n\t b  ")).isEqualTo("a b");
  }

  /** The controls of Unicode Standard Annex 9, table 4. */
  @Test
  void directionMarksGoWhereNoElementCanHoldThem() {
    String marks = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069";

    assertThat(FileText.withoutDirection("a" + marks + "b")).isEqualTo("ab");
    assertThat(FileText.printable("a" + marks + "b")).isEqualTo("a" + marks + "b");
  }
}
