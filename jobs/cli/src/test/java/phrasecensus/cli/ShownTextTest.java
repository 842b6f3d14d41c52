package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

class ShownTextTest {
  /** A name may hold the escape sequences of ECMA-48, which set colours or clear the screen. */
  @Test
  void terminalIsToldNothingByNames() {
    StringWriter shown = new StringWriter();
    PrintWriter out = new PrintWriter(new ShownText(shown), true);

    out.print("a\u001b[31mb\u0007\u009bc\td\r");
    out.print('\u001b');
    out.println(new char[] {'\u0000', 'e'});

    assertThat(shown.toString()).isEqualTo("a?[31mb??c\td\r??e" + System.lineSeparator());
  }

  @Test
  void nameOfTwoLinesIsShownInOne() {
    assertThat(ShownText.name("two\nlines")).isEqualTo("two?lines");
  }
}
