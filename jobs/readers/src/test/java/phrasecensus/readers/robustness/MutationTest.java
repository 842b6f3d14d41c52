package phrasecensus.readers.robustness;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class MutationTest {
  private static final String SCORE =
      "<score-partwise><part-list><score-part id='P1'><part-name>Solo</part-name></score-part>"
          + "</part-list><part id='P1'><measure number='1'><attributes><divisions>6</divisions>"
          + "<key><fifths>-1</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time>"
          + "</attributes><harmony><root><root-step>C</root-step></root><kind>dominant</kind>"
          + "<degree><degree-value>9</degree-value><degree-alter>-1</degree-alter>"
          + "<degree-type>add</degree-type></degree><offset>3</offset></harmony>"
          + "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration>"
          + "<tie type='start'/><voice>1</voice><type>quarter</type></note>"
          + "<note><pitch><step>C</step><octave>4</octave></pitch><duration>20</duration>"
          + "<tie type='stop'/></note><backup><duration>24</duration></backup>"
          + "<barline><repeat direction='backward'/></barline></measure></part></score-partwise>";

  @Test
  void whateverIsDamagedAFileIsReadOrRefused() throws IOException {
    Map<String, byte[]> bases = new TreeMap<>();
    bases.put("tiny.musicxml", SCORE.getBytes(StandardCharsets.UTF_8));
    Path corpus = Path.of(System.getProperty("project.root"), "sample-corpus", "corpus");
    if (Files.exists(corpus)) {
      bases.putAll(MutationRun.bases(corpus));
    }

    MutationRun.Outcome outcome = MutationRun.run(bases, 2000, 20_261_125);

    assertThat(outcome.failures()).isEmpty();
    assertThat(outcome.read() + outcome.rejected()).isEqualTo(2000);
    assertThat(outcome.read()).isGreaterThan(200);
    assertThat(outcome.rejected()).isGreaterThan(200);
  }

  @Test
  void oneSeedGivesOneMutation() {
    byte[] score = SCORE.getBytes(StandardCharsets.UTF_8);

    assertThat(Mutations.mutated(score, 7)).isEqualTo(Mutations.mutated(score, 7));
    assertThat(Mutations.mutated(score, 7)).isNotEqualTo(Mutations.mutated(score, 8));
  }
}
