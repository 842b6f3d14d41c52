package phrasecensus.grammar.binder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.audiveris.proxymusic.Credit;
import org.audiveris.proxymusic.Defaults;
import org.audiveris.proxymusic.Identification;
import org.audiveris.proxymusic.ObjectFactory;
import org.audiveris.proxymusic.PartList;
import org.audiveris.proxymusic.ScorePartwise;
import org.audiveris.proxymusic.Work;
import phrasecensus.grammar.ElementRule;
import phrasecensus.grammar.ScoreElements;

/** Writes {@code ScoreBinding.java} below the folder given as its argument. */
public final class BinderProgram {
  private static final String PACKAGE = "phrasecensus.readers.musicxml";

  private BinderProgram() {}

  /**
   * Runs the program.
   *
   * @param arguments the folder for sources
   */
  public static void main(String[] arguments) throws IOException {
    ElementRule score = ScoreElements.root(ScoreElements.PARTWISE);
    String source =
        new BinderSource(PACKAGE, "ScoreBinding", "ScoreStream", ObjectFactory.class)
            .element(Work.class, score.child("work"))
            .element(Identification.class, score.child("identification"))
            .element(Defaults.class, score.child("defaults"))
            .element(Credit.class, score.child("credit"))
            .element(PartList.class, score.child("part-list"))
            .contents(
                "contents", ScorePartwise.Part.Measure.class, score.child("part").child("measure"))
            .text();
    Path file = Path.of(arguments[0], PACKAGE.replace('.', '/'), "ScoreBinding.java");
    if (!Files.exists(file) || !Files.readString(file).equals(source)) {
      Files.createDirectories(file.getParent());
      Files.writeString(file, source);
    }
  }
}
