package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class PhraseSettingTest {
  private static PhraseSetting chords(String... qualities) {
    return new PhraseSetting(null, null, List.of(qualities));
  }

  @Test
  void halfAndDoubleAreOneDoublingAway() {
    PhraseSetting phrase = new PhraseSetting(120.0, 2.0, List.of());

    assertThat(phrase.tempoDistance(new PhraseSetting(240.0, 2.0, List.of()))).isEqualTo(1);
    assertThat(phrase.tempoDistance(new PhraseSetting(60.0, 2.0, List.of()))).isEqualTo(1);
    assertThat(phrase.lengthDistance(new PhraseSetting(120.0, 0.5, List.of()))).isEqualTo(2);
  }

  @Test
  void anUnknownTempoIsADoublingFromAKnownOneAndNothingFromAnUnknownOne() {
    PhraseSetting known = new PhraseSetting(120.0, 2.0, List.of());
    PhraseSetting unknown = new PhraseSetting(null, null, List.of());

    assertThat(known.tempoDistance(unknown)).isEqualTo(1);
    assertThat(unknown.lengthDistance(known)).isEqualTo(1);
    assertThat(unknown.tempoDistance(unknown)).isZero();
  }

  @Test
  void chordsDifferByTheJensenShannonDistanceOfTheirQualities() {
    // R: p <- c(.5,.5,0); q <- c(1,0,0); m <- (p+q)/2;
    //    kl <- function(a,b) sum(ifelse(a>0, a*log2(a/b), 0)); sqrt((kl(p,m)+kl(q,m))/2) =
    // 0.5579230
    assertThat(chords("minor", "dominant").chordDistance(chords("dominant")))
        .isCloseTo(0.5579230, within(1e-7));
    assertThat(chords("minor", "dominant").chordDistance(chords("dominant", "minor"))).isZero();
    assertThat(chords("minor").chordDistance(chords("major"))).isEqualTo(1);
    assertThat(chords("minor").chordDistance(chords())).isEqualTo(1);
    assertThat(chords().chordDistance(chords())).isZero();
  }
}
