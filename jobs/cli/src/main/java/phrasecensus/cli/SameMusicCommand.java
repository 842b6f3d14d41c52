package phrasecensus.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.tables.InputException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/**
 * {@code same-music}: whether two files hold one solo, after a notation program has written one of
 * them anew. Ends with 3 where they differ.
 */
@Command(
    name = "same-music",
    hidden = true,
    description = "Compares bars, notes and chords of two files.",
    mixinStandardHelpOptions = true)
final class SameMusicCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "FIRST", description = "A MusicXML file.")
  private Path first;

  @Parameters(index = "1", paramLabel = "SECOND", description = "The file to hold against it.")
  private Path second;

  @Mixin private SoloOptions options;

  @Override
  public Integer call() {
    Solo solo = options.read(first, spec.commandLine().getErr()).solo();
    List<String> expected = music(solo);
    List<String> found = music(options.read(second, spec.commandLine().getErr()).solo());
    for (int i = 0; i < Math.max(expected.size(), found.size()); i++) {
      String one = i < expected.size() ? expected.get(i) : "nothing more";
      String other = i < found.size() ? found.get(i) : "nothing more";
      if (!one.equals(other)) {
        throw new InputException(
            "Different music in "
                + first
                + " and "
                + second
                + ": "
                + one
                + " against "
                + other
                + ".");
      }
    }
    spec.commandLine()
        .getOut()
        .println(
            "Same music: "
                + solo.bars().size()
                + " bars, "
                + solo.notes().size()
                + " notes, "
                + solo.chords().size()
                + " chords in "
                + first
                + " and "
                + second);
    return ExitCode.DONE;
  }

  private static List<String> music(Solo solo) {
    List<String> music = new ArrayList<>();
    for (Bar bar : solo.bars()) {
      music.add("bar from " + bar.onset() + " to " + bar.end() + " in " + bar.metre().text());
    }
    for (Note note : solo.notes()) {
      music.add(
          "note "
              + note.concert()
              + " written "
              + note.written()
              + " from "
              + note.onset()
              + " to "
              + note.end());
    }
    for (ChordSpan chord : solo.chords()) {
      music.add(
          "chord "
              + chord.concert().symbol()
              + " of "
              + chord.concert().pitchClasses()
              + " from "
              + chord.onset());
    }
    return music;
  }
}
